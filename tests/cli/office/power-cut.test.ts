import { rmSync } from "node:fs";
import { join } from "node:path";
import { sql } from "kysely";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { openBook } from "../../../src/cli/office/book.ts";
import { judged } from "../../../src/cli/office/judged.ts";
import { writeBatch } from "../../../src/cli/office/write.ts";
import { testFolder } from "../../support/folder.ts";
import { inventedVisit } from "../../support/invented-visits.ts";
import { contentsOf } from "../../support/office-contents.ts";
import { TEST_ENGINES, targetOf } from "../../support/office-engines.ts";
import { type WatchedDisk, watchDisk } from "../../support/power-cut.ts";
import { chance } from "../../support/valve/chance.ts";

// Power cuts are acted: a stand-in for the disk notes what is written and what is flushed, and makes of it what may be left.

const ENTRIES = 10;
const EACH = 4;
const BATCHES = 6;
const NOW = "2026-11-26T12:00:00.000Z";
const BUNDLES = await Promise.all(
  Array.from({ length: EACH * BATCHES }, async (_, number) => {
    const bytes = Buffer.from(JSON.stringify(inventedVisit(number, ENTRIES)));
    const sound = await judged({ name: "", bytes, sha256: String(number) });
    if (!sound.ok) throw new Error("Expected a sound bundle.");
    return sound;
  }),
);
const batchAt = (place: number) => BUNDLES.slice(EACH * place, EACH * (place + 1));

describe("an embedded book after a power cut", () => {
  const { path: folder } = testFolder();
  const [embedded] = TEST_ENGINES;
  embedded?.prepare();
  let disk: WatchedDisk;
  /** How much had happened when each batch was in, and at the end. */
  const done: number[] = [];
  let end = 0;

  beforeAll(async () => {
    const address = (await embedded?.fresh()) ?? "";
    disk = watchDisk(join(address, "data"));
    const book = await openBook(targetOf(address), "write");
    for (let place = 0; place < BATCHES; place += 1) {
      await writeBatch(book.db, batchAt(place), NOW);
      done.push(disk.happened());
      // Tables are written to in the midst of it, not only the log.
      if (place % 3 === 1) await sql`checkpoint`.execute(book.db);
    }
    await book.close();
    end = disk.happened();
    disk.stop();
  }, 60_000);
  afterAll(() => disk.stop());

  let cuts = 0;
  /** What is in the book after a cut, and after the same bundles were then loaded again. */
  async function afterCut(happened: number, flushes: boolean) {
    cuts += 1;
    const path = join(folder, `cut-${cuts}`);
    const { from } = chance(happened);
    disk.cutInto(join(path, "data"), happened, () => from(0, 1), flushes);
    const book = await openBook(targetOf(path), "write");
    try {
      const left = await contentsOf(book, ENTRIES);
      await writeBatch(book.db, BUNDLES, NOW);
      return { left, whole: await contentsOf(book, ENTRIES) };
    } finally {
      await book.close();
      rmSync(path, { recursive: true });
    }
  }

  test.each([0.3, 0.6, 0.9])(
    "every batch that was in is there, whole, and the rest can be loaded (%f of the way)",
    async (share) => {
      const happened = Math.round(share * end);
      const { left, whole } = await afterCut(happened, true);
      const batches = done.filter((at) => at <= happened).length;
      const ids = (to: number) =>
        BUNDLES.slice(0, EACH * to)
          .map(({ visitId }) => visitId)
          .sort();
      // The batch that was under way is in or is not.
      expect([ids(batches), ids(batches + 1)]).toContainEqual(left.visits);
      expect(whole.visits).toEqual(ids(BATCHES));
    },
    60_000,
  );

  test("without a flush it would not be: the stand-in does lose what was not flushed", async () => {
    const lost = await afterCut(done.at(-1) ?? 0, false).then(
      ({ left }) => left.visits.length < BUNDLES.length,
      () => true,
    );
    expect(lost).toBe(true);
  }, 60_000);
});
