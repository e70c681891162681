import { once } from "node:events";
import { describe, expect, test } from "vitest";
import { openBook } from "../../../src/cli/office/book.ts";
import { DERIVED, type DerivedName } from "../../../src/cli/office/tables.ts";
import { cli, startCli } from "../../support/cli.ts";
import { inventedVisit } from "../../support/invented-visits.ts";
import { TEST_ENGINES, targetOf } from "../../support/office-engines.ts";

const ENTRIES = 50;
const LINES = Array.from(
  { length: 400 },
  (_, number) => `${JSON.stringify(inventedVisit(number, ENTRIES))}\n`,
);

/** Loads some lines and kills the process some time after they were said, whatever it is doing then. */
async function loadAndKill(target: string, lines: number, afterMs: number): Promise<void> {
  const child = startCli(["office", "load", "-", "--to", target]);
  const over = once(child, "close");
  const opened = once(child.stderr, "data");
  for (const line of LINES.slice(0, lines)) child.stdin.write(line);
  await opened;
  await new Promise((done) => setTimeout(done, afterMs));
  child.kill("SIGKILL");
  await over;
}

interface Contents {
  readonly visits: number;
  readonly rows: object;
}

/** What is in a book; the test fails where that is half of anything. */
async function contents(target: string): Promise<Contents> {
  const book = await openBook(targetOf(target), "write");
  try {
    const rows: { [table in DerivedName]?: string[] } = {};
    for (const table of DERIVED)
      rows[table] = (await book.db.selectFrom(table).selectAll().execute())
        .map((row) => JSON.stringify(row))
        .sort();
    const revisions = await book.db.selectFrom("revisions").select(["visit_id", "digest"]).execute();
    const files = await book.db.selectFrom("files").select("visit_id").execute();
    const visits = rows.visits?.length ?? 0;
    expect([revisions.length, files.length, rows.entries?.length]).toEqual([
      visits,
      visits,
      ENTRIES * visits,
    ]);
    return { visits, rows: { ...rows, revisions: revisions.map((row) => JSON.stringify(row)).sort() } };
  } finally {
    await book.close();
  }
}

describe.each(TEST_ENGINES)("$name", (engine) => {
  engine.prepare();

  test("a load that is killed again and again ends as one that was let be", async () => {
    const target = await engine.fresh();
    const kept: number[] = [];
    // Longer and longer, until one was killed with a part of the visits in; then twice more.
    for (
      let tries = 0, waited = 100;
      tries < 8 && kept.filter((visits) => visits > 0).length < 3;
      tries += 1
    ) {
      await loadAndKill(target, 250 + 50 * kept.filter((visits) => visits > 0).length, waited);
      const { visits } = await contents(target);
      expect(visits).toBeGreaterThanOrEqual(kept.at(-1) ?? 0);
      kept.push(visits);
      if (visits === 0) waited *= 3;
    }
    const before = kept.at(-1) ?? 0;
    expect(before).toBeGreaterThan(0);
    expect(before).toBeLessThan(LINES.length);

    const { status, rows } = await cli(["office", "load", "-", "--to", target], LINES.join(""));
    expect(status).toBe(0);
    expect(rows).toMatchObject([{ visits: LINES.length - before, skipped: before, same: 0, bad: 0 }]);
    const whole = await engine.fresh();
    await cli(["office", "load", "-", "--to", whole], LINES.join(""));
    expect(await contents(target)).toEqual(await contents(whole));
  }, 180_000);

  test("Ctrl-C ends after the batch, and the next load goes on from there", async () => {
    const target = await engine.fresh();
    const child = startCli(["office", "load", "-", "--to", target]);
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
    const { visits } = await contents(target);
    expect(visits).toBeGreaterThan(0);
    expect(visits).toBeLessThan(LINES.length);
    const { rows } = await cli(["office", "load", "-", "--to", target], LINES.join(""));
    expect(rows).toMatchObject([{ visits: LINES.length - visits, skipped: visits }]);
  }, 120_000);
});
