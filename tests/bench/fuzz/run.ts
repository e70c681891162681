import { chance } from "../../support/valve/chance.ts";
import { cleanPrototypes } from "./expect.ts";
import type { Target, Verdict } from "./target.ts";

/** Longer than any reader takes, on the slowest machine that is not stuck. */
export const TOO_LONG_MS = 2000;

/** An input that a reader failed at. Its number and the seed give it again. */
export interface Failure {
  readonly target: string;
  readonly number: number;
  readonly sentence: string;
}

export interface Slowest {
  readonly ms: number;
  readonly number: number;
}

/** What came of a stretch of inputs. */
export interface Outcome {
  readonly accepted: number;
  readonly refused: number;
  readonly slowest: Slowest;
  readonly failures: readonly Failure[];
}

/** The same number for the same words (FNV-1a, 32 bit). */
function hash(text: string): number {
  let out = 0x811c9dc5;
  for (let at = 0; at < text.length; at += 1) out = Math.imul(out ^ text.charCodeAt(at), 0x01000193);
  return out >>> 0;
}

/** The input of a number. */
export function inputOf({ name, draw }: Target, seed: number, number: number): unknown {
  return draw(chance(hash(`${seed} ${name} ${number}`)));
}

/** Reads the inputs of a stretch of numbers, one after the other; `begin` is told each before it is read. */
export async function runStretch(
  target: Target,
  seed: number,
  from: number,
  to: number,
  begin: (number: number) => void,
): Promise<Outcome> {
  const count: Record<Verdict, number> = { accepted: 0, refused: 0 };
  const failures: Failure[] = [];
  let slowest: Slowest = { ms: 0, number: from };
  for (let number = from; number < to; number += 1) {
    const input = inputOf(target, seed, number);
    begin(number);
    const ms = await timed(async () => {
      try {
        count[await target.read(input)] += 1;
        cleanPrototypes();
      } catch (error) {
        failures.push({ target: target.name, number, sentence: sentenceOf(error) });
      }
    });
    if (ms > slowest.ms) slowest = { ms, number };
    // Once more: the first time much is made that is kept.
    if (ms > TOO_LONG_MS && (await timed(async () => void (await target.read(input)))) > TOO_LONG_MS)
      failures.push({ target: target.name, number, sentence: `took ${(ms / 1000).toFixed(1)} s` });
  }
  return { ...count, slowest, failures };
}

/** Milliseconds of the processor's time, of all threads together, or by the clock where that is less: the machine may be busy. */
async function timed(work: () => Promise<void>): Promise<number> {
  const before = performance.now();
  const spent = process.cpuUsage();
  await work();
  const { user, system } = process.cpuUsage(spent);
  return Math.min(performance.now() - before, (user + system) / 1000);
}

function sentenceOf(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  if (error.name === "Fault") return error.message;
  const place = error.stack?.split("\n").find((line) => line.includes("/src/")) ?? "";
  return `threw ${error.name}: ${error.message.slice(0, 300)} ${place.trim()}`;
}
