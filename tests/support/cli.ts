import { type ChildProcessWithoutNullStreams, spawn } from "node:child_process";
import { once } from "node:events";
import { createInterface } from "node:readline";
import { Readable } from "node:stream";
import { text } from "node:stream/consumers";
import { fileURLToPath } from "node:url";
import { run } from "../../src/cli/run.ts";
import { jsonLine, terminalText } from "../../src/cli/terminal.ts";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));

export interface Ran {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
  /** Standard output line by line, each parsed as JSON; it holds nothing else. */
  readonly rows: readonly unknown[];
}

/**
 * Runs a command line in this process, which is in the root of the project, with the text given as its standard input: a process of its
 * own takes a second to start. That of main.ts, and that it ends, is tested in main.test.ts.
 */
export async function cli(args: readonly string[], input = ""): Promise<Ran> {
  let [out, err] = ["", ""];
  const bytes = Readable.from(input === "" ? [] : [Buffer.from(input)]);
  const status = await run(args, {
    input: bytes,
    get lines() {
      return createInterface({ input: bytes, crlfDelay: Number.POSITIVE_INFINITY });
    },
    json: (value) => {
      out += `${jsonLine(value)}\n`;
    },
    say: (message) => {
      err += `${terminalText(message)}\n`;
    },
  });
  return { status, out, err, rows: rowsOf(out, err) };
}

/** The same as a process of its own. */
export async function cliProcess(args: readonly string[], input = ""): Promise<Ran> {
  const child = startCli(args);
  child.stdin.end(input);
  const [out, err, [status]] = await Promise.all([
    text(child.stdout),
    text(child.stderr),
    once(child, "close"),
  ]);
  return { status, out, err, rows: rowsOf(out, err) };
}

/** Says lines to the command line one after the other, each only when the one before it is answered: the answers. */
export async function converse(args: readonly string[], lines: readonly string[]): Promise<unknown[]> {
  const child = startCli(args);
  const answers = createInterface({ input: child.stdout })[Symbol.asyncIterator]();
  const rows: unknown[] = [];
  try {
    for (const line of lines) {
      child.stdin.write(`${line}\n`);
      const { value } = await answers.next();
      rows.push(JSON.parse(String(value)));
    }
  } finally {
    child.stdin.end();
  }
  return rows;
}

/** The command line as a process, to be talked to or ended by the test. */
export function startCli(args: readonly string[]): ChildProcessWithoutNullStreams {
  const child = spawn(process.execPath, ["--import", "tsx", "src/cli/main.ts", ...args], { cwd: ROOT });
  // A verb that refuses its flags does not wait for what is said to it.
  child.stdin.on("error", () => {});
  return child;
}

function rowsOf(out: string, err: string): unknown[] {
  try {
    return out
      .split("\n")
      .filter((line) => line !== "")
      .map((line) => JSON.parse(line));
  } catch {
    throw new Error(`Expected JSON lines, found: ${out}${err}`);
  }
}
