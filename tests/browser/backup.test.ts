import { readFile } from "node:fs/promises";
import { gunzipSync } from "node:zlib";
import { expect, test } from "vitest";
import { exportVisit, importVisit } from "../../src/record/bundle.ts";
import { examine } from "../../src/record/integrity/examine.ts";
import { exportSheet } from "../../src/record/sheet-file.ts";
import type { Visit } from "../../src/visit/visit.ts";
import { SHEET } from "../record/visit.ts";
import { EXAMINER } from "../support/cryptography.ts";
import { reviewVisit } from "../support/review-visit.ts";
import { type App, withApp } from "./app.ts";

// Everything of one device into a file, and out of it on another, in two browsers that share nothing.

const PASSPHRASE = "kettle orbit lantern moss";

/** Rows of tables that there are in the one database or in the other. */
interface Contents {
  readonly visits: unknown[];
  readonly entries: object[];
  readonly sheets: unknown[];
  readonly clips: unknown[];
  readonly settings: { readonly key: string; readonly value: object }[];
  readonly handed: unknown[];
  readonly keys: unknown[];
  readonly revisions: { readonly text: string }[];
}

/** All that lies in a database, with the bytes of sound as numbers. */
const contents = (app: App, database: string) =>
  app.page.evaluate(
    (name) =>
      new Promise<Contents>((resolve, reject) => {
        const opening = indexedDB.open(name);
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const names = [...opening.result.objectStoreNames];
          const reading = opening.result.transaction(names);
          const asked = names.map((table) => [table, reading.objectStore(table).getAll()] as const);
          reading.oncomplete = () => {
            opening.result.close();
            const shown = (row: { data?: unknown }) =>
              row.data instanceof ArrayBuffer ? { ...row, data: [...new Uint8Array(row.data)] } : row;
            const rows = asked.map(([table, { result }]) => [table, result.map(shown)] as const);
            resolve(Object.fromEntries(rows) as unknown as Contents);
          };
        };
      }),
    database,
  );

/** Keeps a sound beside an entry, past the app: headless browsers record nothing. */
const keepSound = (app: App, visitId: string, seq: number, at: string) =>
  app.page.evaluate(
    ([id, place, when]) =>
      new Promise<void>((resolve) => {
        const opening = indexedDB.open("burnerside");
        opening.onsuccess = () => {
          const writing = opening.result.transaction("clips", "readwrite");
          const data = Uint8Array.from({ length: 70_000 }, (_, index) => (index * 31) % 256).buffer;
          writing.objectStore("clips").put({ visitId: id, seq: place, at: when, type: "audio/wav", data });
          writing.oncomplete = () => {
            opening.result.close();
            resolve();
          };
        };
      }),
    [visitId, seq, at] as const,
  );

const button = (app: App, name: string) => app.page.getByRole("button", { name, exact: true });

/** A device with a finished and a running visit, a sheet, a sound, a setting and an office. */
async function fill(app: App): Promise<void> {
  await app.bringIn("sheet.json", exportSheet({ ...SHEET, id: "own-1", title: "Own sheet" }));
  await app.startVisit();
  await app.type("high fire CO2 nine point two, CO forty");
  await app.type("finish visit");
  await button(app, "To the start").click();
  await app.startVisit();
  await app.type("room CO two");
  const [row] = (await app.stored()).slice(-1);
  if (!row) throw new Error("Expected an entry.");
  await keepSound(app, row.visitId, row.seq, (row.entry as unknown as { at: string }).at);
  await button(app, "To the start").click();
  await app.page.getByText("Settings", { exact: true }).click();
  await app.page.getByLabel("Technician").fill("I. Nvented");
  await app.page.getByLabel("Technician").press("Tab");
  await app.page.goto(`${app.served.url}#/office`);
  const file = {
    name: "a-van.json",
    mimeType: "application/json",
    buffer: Buffer.from(exportVisit(reviewVisit())),
  };
  await app.page.locator(".take-in input[type=file]").first().setInputFiles(file);
  await app.page.locator(".taking-in", { hasText: "gone through" }).waitFor();
  await app.page.goto(`${app.served.url}#/`);
  await button(app, "Back up everything").waitFor();
}

/** Makes a backup, locked where there is a passphrase: the file's name and its bytes. */
async function backedUp(app: App, passphrase: string | null): Promise<{ name: string; bytes: Buffer }> {
  const make = button(app, "Make the backup");
  if (!(await make.isVisible())) await button(app, "Back up everything").click();
  if (passphrase !== null) {
    await app.page.getByLabel("Passphrase", { exact: true }).fill(passphrase);
    await app.page.getByLabel("The same once more").fill(passphrase);
  }
  const [download] = await Promise.all([app.page.waitForEvent("download"), make.click()]);
  await app.page.getByText("look whether it has arrived").waitFor();
  return { name: download.suggestedFilename(), bytes: await readFile(await download.path()) };
}

async function choose(app: App, { name, bytes }: { name: string; bytes: Buffer }): Promise<void> {
  await app.page
    .locator("section[aria-label=Files] input[type=file]")
    .setInputFiles({ name, mimeType: "application/octet-stream", buffer: bytes });
}

const closeOutcome = (app: App) =>
  app.page.getByRole("region", { name: "Files" }).getByRole("button", { name: "Close" }).click();

/** What is not to be the same on two devices: what a log is checked by is compared by examining it. */
const comparable = ({ visits, entries, sheets, clips }: Contents) => ({
  visits,
  entries: entries.map((row) => ({ ...row, link: undefined })),
  sheets,
  clips,
});

test("everything of one device is restored on another, with the right passphrase only", async () => {
  const made = await withApp({}, async (app) => {
    await fill(app);
    const before = await contents(app, "burnerside");
    const office = await contents(app, "burnerside-office");
    expect([before.visits.length, before.sheets.length, before.clips.length]).toEqual([2, 1, 1]);

    await button(app, "Back up everything").click();
    await app.page.getByLabel("Passphrase", { exact: true }).fill("kettle orbit");
    await app.page.getByLabel("The same once more").fill("kettle orbi");
    await button(app, "Make the backup").click();
    await app.page.getByText("The two passphrases are not the same.").waitFor();
    const file = await backedUp(app, PASSPHRASE);
    expect(await app.page.getByLabel("Passphrase", { exact: true }).inputValue()).toBe("");
    const { handed } = await contents(app, "burnerside");
    expect(handed).toHaveLength(2);
    expect(app.errors).toEqual([]);
    return { before, office, file };
  });
  expect(made.file.name).toMatch(/^burnerside-backup-\d{4}-\d\d-\d\d\.jsonl\.gz\.locked$/);
  expect(made.file.bytes.toString("latin1")).not.toMatch(/Nvented|burnerside-visit/);

  await withApp({}, async (app) => {
    await choose(app, made.file);
    const passphrase = app.page.getByLabel("Passphrase of the backup");
    await passphrase.fill("kettle orbit lantern mass");
    await button(app, "Unlock").click();
    await app.page.getByText("This is not its passphrase, or the file was changed").waitFor();
    expect((await contents(app, "burnerside")).visits).toEqual([]);

    await passphrase.fill(PASSPHRASE);
    await button(app, "Unlock").click();
    await app.page
      .getByText("In it: 2 visits, 1 limits sheet, 1 sound, 1 export of visits in the office, and settings.")
      .waitFor();
    await button(app, "Restore").click();
    await app.page.getByText("2 visits restored.").waitFor();

    const after = await contents(app, "burnerside");
    expect(comparable(after)).toEqual(comparable(made.before));
    expect(after.keys).toEqual([]);
    expect(after.settings.filter(({ key }) => key === "settings")).toMatchObject([
      { value: { technician: "I. Nvented" } },
    ]);
    expect((await contents(app, "burnerside-office")).revisions).toMatchObject([
      { text: made.office.revisions[0]?.text, file: "a-van.json" },
    ]);

    // Once more: all of it is here.
    await closeOutcome(app);
    await choose(app, made.file);
    await passphrase.fill(PASSPHRASE);
    await button(app, "Unlock").click();
    await button(app, "Restore").click();
    await app.page.getByText("2 visits here already, the same.").waitFor();
    expect(comparable(await contents(app, "burnerside"))).toEqual(comparable(made.before));
    await closeOutcome(app);

    // The finished visit goes on, and what it is checked by stands.
    await app.page
      .getByRole("button", { name: /^Go on: / })
      .last()
      .click();
    await app.page.locator(".face").waitFor();
    await app.type("note the flue was swept");
    await button(app, "To the start").click();
    const finished = importVisit(await exported(app));
    if (!finished.ok) throw new Error(JSON.stringify(finished.problems));
    expect(await examine(finished.visit, EXAMINER, async () => {})).toMatchObject({
      kind: "whole",
      entries: finished.visit.entries.length,
    });
    expect(app.errors).toEqual([]);
  });
});

/** The oldest visit as its bundle. */
async function exported(app: App): Promise<string> {
  await app.page
    .getByRole("button", { name: /^Delete: / })
    .last()
    .click();
  const [download] = await Promise.all([
    app.page.waitForEvent("download"),
    button(app, "Export it first").click(),
  ]);
  await button(app, "No, keep it").click();
  return readFile(await download.path(), "utf8");
}

test("a damaged backup is told before anything is restored, and what is whole of it comes back; the reminder", () =>
  withApp({}, async (app) => {
    const longAgo = new Date(Date.now() - 20 * 24 * 60 * 60 * 1000).toISOString();
    const old = (number: number): Visit => {
      const visit = reviewVisit();
      const head = { ...visit.head, id: `old-${number}`, title: `Boiler room ${number}`, startedAt: longAgo };
      return { ...visit, head, entries: visit.entries.map((entry) => ({ ...entry, at: longAgo })) };
    };
    for (const number of [1, 2, 3]) await app.bringIn("visit.json", exportVisit(old(number)));
    const { name, bytes } = await backedUp(app, null);
    expect(name).toMatch(/\.jsonl\.gz$/);
    const lines = gunzipSync(bytes).toString("utf8");
    const plain = lines.replace('"title":"Boiler room 2"', '"title":"Boiler room X"');
    for (let left = 3; left > 0; left -= 1) {
      await app.page
        .getByRole("button", { name: /^Delete: / })
        .first()
        .click();
      await button(app, "Yes, delete it").click();
      await expect.poll(() => app.page.getByRole("button", { name: /^Delete: / }).count()).toBe(left - 1);
    }

    await choose(app, { name: "kept.jsonl", bytes: Buffer.from(plain) });
    await app.page.getByText(/2 of 3 visits can be read\./).waitFor();
    await app.page.getByText(/visit "Boiler room X", sha256: Expected the line as it was written/).waitFor();
    await button(app, "Restore").click();
    await app.page.getByText("2 visits restored.").waitFor();
    await app.page.getByText("1 of 3 visits not restored: the backup is damaged there.").waitFor();
    await closeOutcome(app);

    // What came in a file is not on this device only: nothing to remind of, until something is added long ago.
    expect(await app.page.locator(".backup-reminder").count()).toBe(0);
    await app.page.evaluate(
      () =>
        new Promise<void>((resolve) => {
          const opening = indexedDB.open("burnerside");
          opening.onsuccess = () => {
            const writing = opening.result.transaction("handed", "readwrite");
            writing.objectStore("handed").clear();
            writing.oncomplete = () => {
              opening.result.close();
              resolve();
            };
          };
        }),
    );
    await app.load();
    const reminder = app.page.locator(".backup-reminder");
    await reminder.getByText(/2 visits since .* only on this device: back it up, or export it\./).waitFor();
    await button(app, "Remind me in a week").click();
    await reminder.waitFor({ state: "detached" });
    await app.load();
    await button(app, "Back up everything").waitFor();
    expect(await reminder.count()).toBe(0);
    expect(app.errors).toEqual([]);
  }));
