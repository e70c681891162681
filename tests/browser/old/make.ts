/**
 * Writes what the app as it is built stores, as a file for `old.test.ts`: `npx vite build && npx tsx tests/browser/old/make.ts
 * VERSION`, at the commit that a version of the database is released with. 1.json and 2.json were made with this at the last
 * commits that had those versions (1 without the sound and the office, which it did not have).
 */
import { execFileSync } from "node:child_process";
import { readFile, writeFile } from "node:fs/promises";
import { exportVoice } from "../../../src/app/own-voice/voice-file.ts";
import type { DenseWeights } from "../../../src/device/spotter/profile.ts";
import type { VoiceProfile } from "../../../src/device/spotter/voice-profile.ts";
import { withMicrophone } from "../microphone.ts";
import { ownVoice } from "../speaking-person.ts";
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

/** A voice whose layers are short to write down. */
async function plainVoice(): Promise<VoiceProfile> {
  const voice = await ownVoice();
  const plain = ({ kernel, bias }: DenseWeights) => ({ kernel: kernel.fill(0.125), bias: bias.fill(-0.5) });
  const { base, hidden, head } = voice.spotter;
  return { ...voice, spotter: { base, hidden: plain(hidden), head: plain(head) } };
}

const [version] = process.argv.slice(2);
if (version === undefined) throw new Error("Expected the version of the database.");
const program = execFileSync("git", ["rev-parse", "--short", "HEAD"], { encoding: "utf8" }).trim();

await withMicrophone({ phrases: ["high fire CO2 nine point two, CO forty"], before: 14 }, async (app) => {
  const sheet = JSON.parse(await readFile("demo-data/sheets/demo-35.json", "utf8"));
  await app.bringIn(
    "mine.json",
    JSON.stringify({ ...sheet, id: "otterfold-2", title: "Otterfold boiler 2" }),
  );
  await app.page.locator(".settings summary").click();
  await app.page.locator(".own-voice-people input[type=file]").setInputFiles({
    name: "voice.json",
    mimeType: "application/json",
    buffer: Buffer.from(exportVoice(await plainVoice())),
  });
  await app.page.getByRole("radio", { name: "Ada Quill" }).check();
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
