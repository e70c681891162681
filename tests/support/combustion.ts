import { combustion } from "../../src/cli/combustion.ts";

export interface Ran {
  readonly status: number;
  readonly out: unknown[];
  readonly err: string[];
}

/** Runs the verb inside the test: the same code without the wait for a process. */
export const verb = (line: string) => run(line.split(" ").filter(Boolean));

export async function run(args: readonly string[]): Promise<Ran> {
  const out: unknown[] = [];
  const err: string[] = [];
  const lines = (async function* () {})();
  const io = {
    lines,
    input: lines,
    json: (value: unknown) => void out.push(value),
    say: (text: string) => void err.push(text),
  };
  const status = await combustion.run(args, io);
  return { status, out, err };
}
