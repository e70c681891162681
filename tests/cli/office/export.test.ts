import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { type Table, tableFromIPC } from "apache-arrow";
import { readParquet } from "parquet-wasm";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { z } from "zod";
import { type Book, openBook } from "../../../src/cli/office/book.ts";
import { exportParquet } from "../../../src/cli/office/export.ts";
import { EXPORTED } from "../../../src/cli/office/flags.ts";
import { judged } from "../../../src/cli/office/judged.ts";
import { writeBatch } from "../../../src/cli/office/write.ts";
import { foldVisit } from "../../../src/visit/fold.ts";
import { testFolder } from "../../support/folder.ts";
import { inventedVisit } from "../../support/invented-visits.ts";
import { TEST_ENGINES, targetOf } from "../../support/office-engines.ts";

// Outside reference: the Rust implementation of Apache Parquet and Apache Arrow (parquet-wasm), read with Apache Arrow's own
// library for JavaScript.
const read = (file: string): Table =>
  tableFromIPC(readParquet(new Uint8Array(readFileSync(file))).intoIPCStream());

/** Rows by the columns that a test looks at. */
const rowsIn = <T extends z.ZodType>(table: Table, of: T): z.infer<T>[] =>
  [...table].map((row) => of.parse(row.toJSON()));

const Reading = z.object({
  visit_id: z.string(),
  seq: z.number(),
  at: z.union([z.number(), z.bigint()]),
  quantity: z.string(),
  value: z.number(),
  unit: z.string(),
  firing: z.string().nullable(),
  standing: z.boolean(),
});
const Pressure = z.object({
  quantity: z.string(),
  value: z.number(),
  canonical_value: z.number(),
  canonical_unit: z.string(),
});
const Listed = z.object({
  visit_id: z.string(),
  started_on: z.union([z.number(), z.bigint()]),
  warnings: z.string(),
});

const VISITS = Array.from({ length: 30 }, (_, number) => inventedVisit(number));

describe.each(TEST_ENGINES)("$name", (engine) => {
  engine.prepare();
  const { path: folder } = testFolder();
  let book: Book;
  beforeAll(async () => {
    book = await openBook(targetOf(await engine.fresh()), "write");
    const sources = VISITS.map((visit) => ({
      name: visit.head.id,
      bytes: Buffer.from(JSON.stringify(visit)),
      sha256: visit.head.id,
    }));
    await writeBatch(
      book.db,
      (await Promise.all(sources.map(judged))).filter((each) => each.ok),
      "2026-11-26T12:00:00.000Z",
    );
  }, 60_000);
  afterAll(() => book.close());

  test("readings: one row each, with types, in the order of visit and place", async () => {
    const file = join(folder, "readings.parquet");
    const count = await exportParquet(book.db, "readings", file);
    const table = read(file);
    const types = Object.fromEntries(table.schema.fields.map(({ name, type }) => [name, String(type)]));
    expect(types).toMatchObject({
      visit_id: "Utf8",
      seq: "Int32",
      at: "Timestamp<MILLISECOND, UTC>",
      value: "Float64",
      standing: "Bool",
      visit_started_on: "Date32<DAY>",
    });

    const expected = VISITS.flatMap((visit) =>
      foldVisit(visit).items.flatMap(({ seq, at, body, struckBy }) =>
        body.kind === "reading"
          ? [
              {
                visit_id: visit.head.id,
                seq,
                at: Date.parse(at),
                quantity: body.quantity,
                value: body.value,
                unit: body.unit,
                firing: body.firing,
                standing: struckBy === null,
              },
            ]
          : [],
      ),
    ).sort((a, b) => (a.visit_id < b.visit_id ? -1 : a.visit_id > b.visit_id ? 1 : a.seq - b.seq));
    const rows = rowsIn(table, Reading).map(({ at, ...rest }) => ({ at: Number(at), ...rest }));
    expect(rows).toEqual(expected);
    expect(count).toBe(expected.length);
    expect(expected.some(({ standing }) => !standing)).toBe(true);
  });

  test("inlet pressures are there in millibar, too: 1 in. w.c. is 2.490889 mbar (NIST SP 811, from memory)", async () => {
    const file = join(folder, "pressures.parquet");
    await exportParquet(book.db, "readings", file);
    const pressures = rowsIn(read(file), Pressure).filter(
      ({ quantity }) => quantity === "gas-pressure-inlet",
    );
    expect(pressures.length).toBeGreaterThan(0);
    for (const { value, canonical_value, canonical_unit } of pressures) {
      expect(canonical_unit).toBe("mbar");
      expect(canonical_value / value).toBeCloseTo(2.490889, 5);
    }
  });

  test("visits: their days as days, warnings as JSON", async () => {
    const file = join(folder, "visits.parquet");
    expect(await exportParquet(book.db, "visits", file)).toBe(VISITS.length);
    const row = rowsIn(read(file), Listed).find(({ visit_id }) => visit_id === "invented-3");
    expect(new Date(Number(row?.started_on)).toISOString()).toBe("2025-01-01T00:00:00.000Z");
    expect(JSON.parse(row?.warnings ?? "")).toEqual(expect.any(Array));
  });

  test.each(EXPORTED)("of an empty book no %s are exported, and no file is written", async (table) => {
    const empty = await openBook(targetOf(await engine.fresh()), "write");
    const file = join(folder, `empty-${table}.parquet`);
    try {
      await expect(exportParquet(empty.db, table, file)).rejects.toThrow(
        /: expected rows to export, found none/,
      );
    } finally {
      await empty.close();
    }
    expect(existsSync(file)).toBe(false);
  });

  test("a file is replaced once the new one is whole, and nothing half is left where none can be written", async () => {
    const file = join(folder, "old.parquet");
    writeFileSync(file, "old");
    await exportParquet(book.db, "visits", file);
    expect(read(file).numRows).toBe(VISITS.length);
    expect(existsSync(`${file}.unfinished`)).toBe(false);
    await expect(exportParquet(book.db, "visits", join(folder, "none", "x.parquet"))).rejects.toThrow(
      /x\.parquet: expected a file that can be written, found no such folder\./,
    );
    await expect(exportParquet(book.db, "visits", folder)).rejects.toThrow(/found a folder\./);
  });
});
