/** TensorFlow.js comes as three programs; which of them a device computes with depends on what its browser can. */
const ENGINE = /\/tfjs-backend-wasm(-simd|-threaded-simd)?-[^/]*\.wasm$/;

/** The shortest program with a SIMD instruction (WebAssembly SIMD, opcode prefix 0xfd): what TensorFlow.js itself asks about. */
const SIMD = [
  0, 97, 115, 109, 1, 0, 0, 0, 1, 4, 1, 96, 0, 0, 3, 2, 1, 0, 10, 9, 1, 7, 0, 65, 0, 253, 15, 26, 11,
];

/** Whether this device would fetch a file: all but the engines that it does not compute with. */
export function isUsedHere(
  file: string,
  simd = WebAssembly.validate(Uint8Array.from(SIMD)),
  threads = globalThis.crossOriginIsolated === true,
): boolean {
  const engine = ENGINE.exec(file);
  if (!engine) return true;
  const used = !simd ? undefined : threads ? "-threaded-simd" : "-simd";
  return engine[1] === used;
}
