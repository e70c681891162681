import { once } from "node:events";
import { describe, expect, test } from "vitest";
import { openBook } from "../../../src/cli/office/book.ts";
import { judged } from "../../../src/cli/office/judged.ts";
import { writeBatch } from "../../../src/cli/office/write.ts";
import { cli, startCli } from "../../support/cli.ts";
import { inventedVisit } from "../../support/invented-visits.ts";
import { type Contents, contentsOf } from "../../support/office-contents.ts";
import { TEST_ENGINES, targetOf } from "../../support/office-engines.ts";

const ENTRIES = 10;
const LINES = Array.from(
  { length: 300 },
  (_, number) => `${JSON.stringify(inventedVisit(number, ENTRIES))}\n`,
);

/** Small batches, so that there are many in a short load. */
const LOAD = ["office", "load", "-", "--batch", "100", "--to"];

/**
 * Loads and kills the process some time after it has opened the book, whatever it is doing then. Not all lines are said, so that it
 * can never be done.
 */
async function loadAndKill(target: string, afterMs: number): Promise<void> {
  const child = startCli([...LOAD, target]);
  const over = once(child, "close");
  const opened = once(child.stderr, "data");
  for (const line of LINES.slice(0, 250)) child.stdin.write(line);
  await opened;
  await new Promise((done) => setTimeout(done, afterMs));
  child.kill("SIGKILL");
  await over;
}

/** The same without process, threads or batches. */
async function loadAtOnce(target: string): Promise<void> {
  const book = await openBook(targetOf(target), "write");
  const sources = LINES.map((line, place) => ({ name: "", bytes: Buffer.from(line), sha256: String(place) }));
  await writeBatch(
    book.db,
    (await Promise.all(sources.map(judged))).filter((each) => each.ok),
    "2026-11-26T12:00:00.000Z",
  );
  await book.close();
}

/** What is in a book; the test fails where that is half of anything. */
async function contents(target: string): Promise<Contents> {
  const book = await openBook(targetOf(target), "write");
  try {
    return await contentsOf(book, ENTRIES);
  } finally {
    await book.close();
  }
}

describe.each(TEST_ENGINES)("$name", (engine) => {
  engine.prepare();

  test("a load that is killed again and again ends as one that was let be", async () => {
    const target = await engine.fresh();
    const kept: number[] = [];
    // Longer and longer, until one was killed with a part of the visits in; then once more in the midst of it.
    let waited = 800;
    while ((kept.at(-1) ?? 0) === 0 && kept.length < 8) {
      await loadAndKill(target, waited);
      kept.push((await contents(target)).visits.length);
      waited *= 2;
    }
    await loadAndKill(target, waited / 4);
    const before = (await contents(target)).visits.length;
    expect(before).toBeGreaterThanOrEqual(kept.at(-1) ?? 0);
    expect(before).toBeGreaterThan(0);
    expect(before).toBeLessThan(LINES.length);

    const { status, rows } = await cli([...LOAD, target], LINES.join(""));
    expect(status).toBe(0);
    expect(rows).toMatchObject([{ visits: LINES.length - before, skipped: before, same: 0, bad: 0 }]);
    const whole = await engine.fresh();
    await loadAtOnce(whole);
    expect(await contents(target)).toEqual(await contents(whole));
  }, 180_000);

  test("Ctrl-C ends after the batch", async () => {
    const target = await engine.fresh();
    const child = startCli([...LOAD, target]);
    const over = once(child, "close");
    await once(child.stderr, "data");
    child.kill("SIGINT");
    child.stdin.end(LINES.join(""));
    let said = "";
    child.stderr.on("data", (data) => {
      said += data;
    });
    expect(await over).toEqual([130, null]);
    expect(said).toContain("office: ended after a batch; run it again to go on from there.\n");
    const { length } = (await contents(target)).visits;
    expect(length).toBeGreaterThan(0);
    expect(length).toBeLessThan(LINES.length);
  }, 120_000);
});
