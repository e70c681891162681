import { rename, rm } from "node:fs/promises";
import { fileWriter, parquetWriteRows } from "hyparquet-writer";
import type { Kysely } from "kysely";
import { unwritable } from "../unwritable.ts";
import { type Cell, columnsOf, type ExportedRow, isEmpty, rowsOf } from "./export-rows.ts";
import type { Exported } from "./flags.ts";
import { parquetColumn, parquetSchema, parquetValue } from "./parquet-types.ts";
import type { Tables } from "./tables.ts";
import { Trouble } from "./trouble.ts";

/** Rows of a row group: what is held at a time. */
const GROUP = 20_000;

/**
 * Writes a table of the book, as it stands at one moment, as an Apache Parquet file, a row group at a time; how many rows. A
 * file that was there is replaced once the new one is whole. None is written without rows: the writer marks an empty list of
 * row groups in a way that other readers refuse.
 */
export async function exportParquet(db: Kysely<Tables>, table: Exported, file: string): Promise<number> {
  const unfinished = `${file}.unfinished`;
  const columns = columnsOf(table);
  let count = 0;
  async function* counted(rows: AsyncIterable<ExportedRow>): AsyncGenerator<Record<string, unknown>> {
    for await (const row of rows) {
      count += 1;
      yield Object.fromEntries(
        columns.map(({ name, type }) => [name, parquetValue(type, row[name] as Cell)]),
      );
    }
  }
  if (await isEmpty(db, table))
    throw new Trouble(`${file}: expected rows to export, found none in the book; no file was written.`);
  try {
    const writer = writerTo(unfinished, file);
    await db
      .transaction()
      .setIsolationLevel("repeatable read")
      .setAccessMode("read only")
      .execute(async (tx) => {
        await parquetWriteRows({
          writer,
          rows: counted(rowsOf(tx, table)),
          columns: columns.map(parquetColumn),
          schema: parquetSchema(columns),
          rowGroupSize: GROUP,
          createdBy: "burnerside",
        });
      });
    await rename(unfinished, file).catch((error) => {
      throw cannotWrite(file, error);
    });
    return count;
  } catch (error) {
    await rm(unfinished, { force: true });
    throw error;
  }
}

function writerTo(unfinished: string, file: string): ReturnType<typeof fileWriter> {
  try {
    return fileWriter(unfinished);
  } catch (error) {
    throw cannotWrite(file, error);
  }
}

function cannotWrite(file: string, error: unknown): Trouble {
  return new Trouble(`${unwritable(file, error)}.`);
}
