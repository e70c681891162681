/**
 * Just enough of WASI preview 1 (github.com/WebAssembly/WASI, legacy/preview1/docs.md) to run one command-line program
 * that writes one file: Node's own `node:wasi` crashes the process when a second program is started.
 */
const BAD_FILE = 8;
const NOT_FOUND = 44;
/** Descriptor of the one open folder, and of the file written in it. */
const FOLDER = 3;
const OUT = 4;
const FOLDER_NAME = "/";

class Exit extends Error {}

/** Runs a WASI program; returns what it wrote into the file it opened. */
export async function runWasi(program: WebAssembly.Module, args: readonly string[]): Promise<Uint8Array> {
  const file = { bytes: new Uint8Array(1 << 16), at: 0, length: 0 };
  let memory = new DataView(new ArrayBuffer(0));
  let bytes = new Uint8Array(0);
  const look = (): void => {
    const { memory: own } = instance.exports;
    if (!(own instanceof WebAssembly.Memory)) throw new Error("expected a program with memory");
    const { buffer } = own;
    if (memory.buffer !== buffer) [memory, bytes] = [new DataView(buffer), new Uint8Array(buffer)];
  };
  const put32 = (at: number, value: number): void => memory.setUint32(at, value, true);
  const write = (from: Uint8Array): void => {
    if (file.at + from.length > file.bytes.length) {
      const larger = new Uint8Array(2 * (file.at + from.length));
      larger.set(file.bytes);
      file.bytes = larger;
    }
    file.bytes.set(from, file.at);
    file.at += from.length;
    file.length = Math.max(file.length, file.at);
  };
  const texts = args.map((arg) => new TextEncoder().encode(`${arg}\0`));
  const calls: Record<string, (...values: number[]) => number> = {
    args_sizes_get: (count = 0, size = 0) => {
      put32(count, texts.length);
      put32(
        size,
        texts.reduce((sum, text) => sum + text.length, 0),
      );
      return 0;
    },
    args_get: (pointers = 0, buffer = 0) => {
      let at = buffer;
      texts.forEach((text, index) => {
        put32(pointers + 4 * index, at);
        bytes.set(text, at);
        at += text.length;
      });
      return 0;
    },
    fd_prestat_get: (fd = 0, out = 0) => {
      if (fd !== FOLDER) return BAD_FILE;
      put32(out, 0);
      put32(out + 4, FOLDER_NAME.length);
      return 0;
    },
    fd_prestat_dir_name: (_fd = 0, out = 0) => {
      bytes.set(new TextEncoder().encode(FOLDER_NAME), out);
      return 0;
    },
    fd_fdstat_get: (fd = 0, out = 0) => {
      bytes.fill(0, out, out + 24);
      // File type: 3 is a folder, 4 a plain file; all rights.
      memory.setUint8(out, fd === FOLDER ? 3 : 4);
      memory.setBigUint64(out + 8, 0xffff_ffff_ffff_ffffn, true);
      memory.setBigUint64(out + 16, 0xffff_ffff_ffff_ffffn, true);
      return 0;
    },
    fd_fdstat_set_flags: () => 0,
    fd_close: () => 0,
    path_open: (...values) => {
      put32(values.at(-1) ?? 0, OUT);
      return 0;
    },
    fd_read: () => NOT_FOUND,
    fd_write: (fd = 0, vectors = 0, count = 0, written = 0) => {
      let total = 0;
      for (let index = 0; index < count; index++) {
        const from = memory.getUint32(vectors + 8 * index, true);
        const length = memory.getUint32(vectors + 8 * index + 4, true);
        if (fd === OUT) write(bytes.slice(from, from + length));
        total += length;
      }
      put32(written, total);
      return 0;
    },
    proc_exit: () => {
      throw new Exit();
    },
  };
  const wrap =
    (call: (...values: number[]) => number) =>
    (...values: number[]): number => {
      look();
      return call(...values);
    };
  const imports = {
    ...Object.fromEntries(Object.entries(calls).map(([name, call]) => [name, wrap(call)])),
    clock_time_get: (_clock: number, _precision: bigint, out: number): number => {
      look();
      memory.setBigUint64(out, 0n, true);
      return 0;
    },
    fd_seek: (_fd: number, offset: bigint, whence: number, out: number): number => {
      look();
      file.at = Number(offset) + (whence === 0 ? 0 : whence === 1 ? file.at : file.length);
      memory.setBigUint64(out, BigInt(file.at), true);
      return 0;
    },
  };
  const instance = await WebAssembly.instantiate(program, { wasi_snapshot_preview1: imports });
  try {
    const { _start: start } = instance.exports;
    if (typeof start === "function") start();
  } catch (error) {
    if (!(error instanceof Exit)) throw error;
  }
  return file.bytes.slice(0, file.length);
}
