/**
 * Writes what the app as it is built stores, as a file for `old.test.ts`: `npx vite build && npx tsx tests/browser/old/make.ts
 * VERSION`, at the commit that a version of the database is released with. 1.json and 2.json were made with this at the last
 * commits that had those versions (1 without the sound and the office, which it did not have).
 */
import { execFileSync } from "node:child_process";
import { readFile, writeFile } from "node:fs/promises";
import { withMicrophone } from "../microphone.ts";
import { readDatabases } from "./databases.ts";

const FINISHED = [
  "dynamic gas pressure six point five inches",
  "high fire CO2 ten point five, CO forty",
  "high fire screw one turn counterclockwise",
  "CO2 nine point two",
  "no, nine point one",
  "CO2 ninety two percent",
  "low fire CO2 eight point nine, CO thirty",
  "scratch that",
  "note: order a condensate trap gasket",
  "test port plugged",
  "talk less",
  "finish visit",
];
const OFFICE = ["2025", "2026-early", "2026"].map(
  (year) => `demo-data/office/otterfold-mill-${year}.visit.json`,
);

const [version] = process.argv.slice(2);
if (version === undefined) throw new Error("Expected the version of the database.");
const program = execFileSync("git", ["rev-parse", "--short", "HEAD"], { encoding: "utf8" }).trim();

await withMicrophone({ phrases: ["high fire CO2 nine point two, CO forty"], before: 14 }, async (app) => {
  const sheet = JSON.parse(await readFile("demo-data/sheets/demo-35.json", "utf8"));
  await app.bringIn(
    "mine.json",
    JSON.stringify({ ...sheet, id: "otterfold-2", title: "Otterfold boiler 2" }),
  );
  await app.startVisit();
  for (const phrase of FINISHED) await app.type(phrase);
  const exported = app.page.waitForEvent("download");
  await app.page.getByRole("button", { name: "Export visit" }).click();
  await exported;
  await app.page.getByRole("button", { name: "To the start" }).click();
  await app.page.locator(".start").waitFor();

  await app.startVisit("Otterfold boiler 2");
  await app.listen();
  await app.page.locator(".play").first().waitFor({ timeout: 60_000 });
  await app.type("CO forty five");

  const office = await app.launched.context.newPage();
  await office.goto(`${app.served.url}#/office`);
  await office.locator(".office h1").waitFor();
  await office.locator("input[type=file]").first().setInputFiles(OFFICE);
  await office.locator(".taking-in > p", { hasText: "gone through" }).first().waitFor();
  await office.close();

  const databases = (await app.page.evaluate(readDatabases)).filter(({ name }) =>
    name.startsWith("burnerside"),
  );
  await writeFile(
    `tests/browser/old/${version}.json`,
    `${JSON.stringify({ program, databases }, null, 2)}\n`,
  );
});
