import { spawn } from "node:child_process";
import { fileURLToPath } from "node:url";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));

export interface Ran {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
  /** Standard output line by line, each parsed as JSON. */
  readonly rows: readonly unknown[];
}

/** Runs the command line as a process, with the text given as its standard input. */
export function cli(args: readonly string[], input = ""): Promise<Ran> {
  return new Promise((resolve, reject) => {
    const child = spawn("node_modules/.bin/tsx", ["src/cli/main.ts", ...args], { cwd: ROOT });
    let out = "";
    let err = "";
    child.stdout.setEncoding("utf8").on("data", (text: string) => {
      out += text;
    });
    child.stderr.setEncoding("utf8").on("data", (text: string) => {
      err += text;
    });
    child.on("error", reject);
    child.on("close", (status) => resolve({ status, out, err, rows: rowsOf(out) }));
    child.stdin.end(input);
  });
}

function rowsOf(out: string): unknown[] {
  return out.split("\n").flatMap((line) => (line.startsWith("{") ? [JSON.parse(line)] : []));
}
