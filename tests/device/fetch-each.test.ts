import { expect, test } from "vitest";
import { fetchEach } from "../../src/device/fetch-each.ts";

const FILES = ["a", "b", "c"].map((file) => ({ file, bytes: 1 }));

/** Fetches the three files; each of `failing` fails so many times. What was tried, waited for (ms), and missed in the end. */
async function run(failing: Readonly<Record<string, number>>, stopAt = "") {
  const stop = new AbortController();
  const log: (string | number)[] = [];
  const left = new Map(Object.entries(failing));
  const fetchOne = async ({ file }: { readonly file: string }) => {
    log.push(file);
    if (file === stopAt) stop.abort();
    const more = left.get(file) ?? 0;
    left.set(file, more - 1);
    if (more > 0) throw new Error(`${file} ${more}`);
  };
  const pause = async (ms: number) => {
    log.push(ms);
    if (stopAt === "pause") stop.abort();
  };
  const missed = await fetchEach(FILES, fetchOne, pause, stop.signal).catch((error: unknown) =>
    String(error),
  );
  return {
    log: log.join(" "),
    missed: typeof missed === "string" ? missed : missed.map(({ error }) => String(error)),
  };
}

test.each([
  ["all there", {}, "a b c", []],
  ["one that fails once holds up none", { a: 1 }, "a b c 500 a", []],
  ["only what failed is tried again, twice", { a: 2, c: 1 }, "a b c 500 a c 2000 a", []],
  ["three tries, then it is missing", { b: 9 }, "a b c 500 b 2000 b", ["Error: b 7"]],
  [
    "all missing",
    { a: 3, b: 3, c: 3 },
    "a b c 500 a b c 2000 a b c",
    ["Error: a 1", "Error: b 1", "Error: c 1"],
  ],
] as const)("%s", async (_, failing, log, missed) => expect(await run(failing)).toEqual({ log, missed }));

test.each([
  ["in a file that fails", { a: 1 }, "a", "a"],
  ["in a file that comes", {}, "b", "a b"],
  ["in a pause", { a: 1 }, "pause", "a b c 500"],
])("given up %s nothing more is tried", async (_, failing, stopAt, log) => {
  const ran = await run(failing, stopAt);
  expect(ran.log).toBe(log);
  expect(ran.missed).toMatch(/^AbortError/);
});
