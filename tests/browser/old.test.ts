import { readFile } from "node:fs/promises";
import { expect, test } from "vitest";
import { importVisit } from "../../src/record/bundle.ts";
import { type App, type StoredRow, withApp } from "./app.ts";
import { readDatabases, type StoredDatabase, type StoredTable, writeDatabase } from "./old/databases.ts";

// What every released version of the app stored comes up whole, and is gone on with. The files in old/ were written by the
// real app of those versions (`old/make.ts`), by a visit that was finished, one that runs, a sheet, settings, a clip, an office.

interface Old {
  readonly program: string;
  readonly databases: readonly StoredDatabase[];
}

/** A page of the same origin without the app. */
async function leaveApp(app: App): Promise<void> {
  const elsewhere = new URL("/elsewhere", app.served.url).href;
  await app.page.route(elsewhere, (route) => route.fulfill({ contentType: "text/html", body: "" }));
  await app.page.goto(elsewhere);
}

async function stored(version: number): Promise<readonly StoredDatabase[]> {
  const { databases }: Old = JSON.parse(await readFile(`tests/browser/old/${version}.json`, "utf8"));
  // Sound from longer ago than it is to be kept is deleted, as it should be.
  const young = (row: unknown) => ({ ...(row as object), at: new Date().toISOString() });
  return databases.map((database) => ({
    ...database,
    tables: database.tables.map((table) =>
      table.name === "clips" ? { ...table, rows: table.rows.map(young) } : table,
    ),
  }));
}

const tableOf = (
  databases: readonly StoredDatabase[],
  name: string,
  table: string,
): StoredTable | undefined =>
  databases.find((database) => database.name === name)?.tables.find((one) => one.name === table);

test.each([1, 2, 3, 4])("a notebook of version %d comes up whole, and is gone on with", (version) =>
  withApp({}, async (app) => {
    const old = await stored(version);
    expect(old.find(({ name }) => name === "burnerside")?.native).toBe(10 * version);
    await leaveApp(app);
    for (const database of old) await app.page.evaluate(writeDatabase, database);

    // The visit that runs is there, at the boiler, with all that was logged.
    await app.load();
    await app.page.locator(".face").waitFor();
    const rowsOf = (table: string) => (tableOf(old, "burnerside", table)?.rows ?? []) as unknown[];
    const running = (rowsOf("settings") as { key: string; value: unknown }[]).find(
      ({ key }) => key === "running-visit",
    );
    const own = (rowsOf("entries") as StoredRow[]).filter(({ visitId }) => visitId === running?.value);
    expect(own.length).toBeGreaterThan(1);
    expect(await app.page.locator(".line").count()).toBe(own.length);
    // Each line of the phrase whose sound was kept plays it.
    expect(await app.page.locator(".play").count()).toBe(2 * rowsOf("clips").length);

    // Nothing of what was there is changed by opening it.
    const now = await app.page.evaluate(readDatabases);
    for (const { name, tables } of old)
      for (const table of tables) expect(tableOf(now, name, table.name)).toEqual(table);
    expect(now.find(({ name }) => name === "burnerside")?.native).toBeGreaterThanOrEqual(40);

    await app.type("CO forty six");
    expect(await app.text(".large")).toBe("46 ppm");
    expect(await app.stored()).toHaveLength(rowsOf("entries").length + 1);
    const [download] = await Promise.all([
      app.page.waitForEvent("download"),
      app.page.getByRole("button", { name: "Export visit" }).click(),
    ]);
    const exported = importVisit(await readFile(await download.path(), "utf8"));
    if (!exported.ok) throw new Error(JSON.stringify(exported.problems));
    expect(exported.visit.entries.slice(0, -1)).toEqual(own.map(({ entry }) => entry));
    expect(exported.visit.integrity?.links).toHaveLength(own.length + 2);

    // The one that was finished, the sheet and the settings.
    await app.page.getByRole("button", { name: "To the start" }).click();
    await app.page.locator(".start, .welcome").first().waitFor();
    await app.passWelcome();
    expect(await app.page.locator(".visit-rows > li").count()).toBe(2);
    await app.page.locator(".settings summary").click();
    expect(await app.page.locator("input[name=talk][value=short]").isChecked()).toBe(true);
    expect(await app.page.locator("input[name=keep-clips]").isChecked()).toBe(true);
    expect(await app.page.locator("input[name=clip-days][value='30']").isChecked()).toBe(true);
    const voices = rowsOf("voices") as { name: string }[];
    for (const { name } of voices) expect(await app.page.getByRole("radio", { name }).isChecked()).toBe(true);
    await app.startVisit("Otterfold boiler 2");

    if (tableOf(old, "burnerside-office", "visits")) {
      await app.page.goto(`${app.served.url}#/office`);
      await app.page.locator(".office h1").waitFor();
      expect(tableOf(now, "burnerside-office", "visits")?.rows).toHaveLength(2);
      await app.page.locator(".office table tbody tr").nth(1).waitFor();
      expect(await app.page.locator(".office table tbody tr").count()).toBe(2);
    }
    expect(app.errors).toEqual([]);
  }),
);
