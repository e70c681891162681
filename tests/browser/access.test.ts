import { readFile } from "node:fs/promises";
import { AxeBuilder } from "@axe-core/playwright";
import { describe, expect, test } from "vitest";
import type { ReadingPlan } from "../../src/app/own-voice/plan.ts";
import { exportVisit } from "../../src/record/bundle.ts";
import { linesOf, lockedFile } from "../record/backup/backup.ts";
import { upTo } from "../support/office.ts";
import { officeBook } from "../support/office-book.ts";
import { reviewVisit } from "../support/review-visit.ts";
import { type App, withApp } from "./app.ts";
import { deafPlatform, seatMouth } from "./mouth.ts";
import { ownVoiceFile, seatPerson } from "./speaking-person.ts";

// WCAG 2.2 levels A and AA, as far as the rules of axe-core can tell; on every screen, in every theme, on a phone.

const RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

/** What another theme can change. */
const OF_COLOURS = ["color-contrast", "link-in-text-block"];

/** What is wrong on the screen that is open: rule, elements, and what was expected, a line each. */
async function faults(app: App, colours = false): Promise<string[]> {
  const axe = new AxeBuilder({ page: app.page });
  const { violations } = await (colours ? axe.withRules(OF_COLOURS) : axe.withTags(RULES)).analyze();
  return violations.flatMap(({ id, nodes }) =>
    nodes.map(({ target, failureSummary }) => `${id} at ${target.join(" ")}: ${failureSummary}`),
  );
}

const typed =
  (...phrases: string[]) =>
  async (app: App) => {
    await app.startVisit();
    for (const phrase of phrases) await app.type(phrase);
  };

/** A visit with something of everything, one thing of it being mended to what cannot be. */
async function lookedOver(app: App): Promise<void> {
  await app.bringIn("visit.json", exportVisit(reviewVisit()));
  await app.page.getByRole("button", { name: /^Look it over/ }).click();
  await app.page.getByRole("button", { name: /^Mend: CO2 9.1 %/ }).click();
  await app.page.locator(".mend-form input").fill("ninety four");
  await app.page.locator(".mend-form input").press("Enter");
  await app.page.getByRole("button", { name: /^Make it/ }).waitFor();
}

/** A note with what it asks for, one thing of it being changed. */
async function noted(app: App): Promise<void> {
  await app.startVisit();
  await app.type("note order a fan and come back before winter with the plumber");
  await app.page.getByRole("button", { name: "Look it over" }).click();
  await app.page.getByRole("button", { name: /^Change: Come back/ }).click();
  await app.page.locator(".task-form").waitFor();
}

/** Each kind that a visit can be handed over as, one of them saved. */
async function handedOver(app: App): Promise<void> {
  await app.bringIn("visit.json", exportVisit(reviewVisit()));
  await app.page.getByRole("button", { name: /^Export: / }).click();
  await app.page.getByRole("button", { name: "Save: Table (CSV)" }).click();
  await app.page.getByText(/^Saved: /).waitFor();
}

async function recorded(app: App): Promise<void> {
  await app.bringIn("visit.json", exportVisit(reviewVisit()));
  await app.page.getByRole("button", { name: /^Visit record: / }).click();
  await app.page.locator(".record-plate").waitFor();
}

/** The backup's form with a passphrase that is not taken, and a locked backup that another one does not open. */
async function lockedBackup(app: App): Promise<void> {
  await app.page.getByRole("button", { name: "Back up everything" }).click();
  await app.page.getByLabel("Passphrase", { exact: true }).fill("short");
  await app.page.getByRole("button", { name: "Make the backup" }).click();
  await app.page.getByText("Give at least").waitFor();
  await chooseBackup(
    app,
    "a-backup.jsonl.gz.locked",
    await lockedFile(await linesOf(), "four words of mine"),
  );
  await app.page.getByLabel("Passphrase of the backup").fill("four words of yours");
  await app.page.getByRole("button", { name: "Unlock" }).click();
  await app.page.getByText("that looks alike").waitFor();
}

/** A damaged backup, looked through. */
async function damagedBackup(app: App): Promise<void> {
  const lines = await linesOf();
  await chooseBackup(app, "a-backup.jsonl", lines.join("").replace('"Second"', '"Third"'));
  await app.page.getByText("It is not whole.").waitFor();
}

async function chooseBackup(app: App, name: string, bytes: Buffer | string): Promise<void> {
  const file = { name, mimeType: "application/octet-stream", buffer: Buffer.from(bytes) };
  await app.page.locator("section[aria-label=Files] input[type=file]").setInputFiles(file);
}

const at = (address: string) => async (app: App) => {
  await app.page.goto(`${app.served.url}#${address}`);
  await app.page.locator(`main:not([aria-busy=true]) h1`).waitFor();
};

/** The office with visits, one of them with two revisions, and a file that was not taken in; then a part of it. */
const office = (part: string) => async (app: App) => {
  await at("/office")(app);
  const visits = officeBook(24);
  const files = [
    ...visits.map((visit) => exportVisit(visit)),
    ...visits.slice(0, 4).map((visit) => exportVisit(upTo(visit, 3))),
    "[]",
  ];
  await app.page
    .locator(".take-in input[type=file]")
    .first()
    .setInputFiles(
      files.map((text, place) => ({
        name: `${place}-${"a-long-name-".repeat(5)}.json`,
        mimeType: "application/json",
        buffer: Buffer.from(text),
      })),
    );
  await app.page.locator(".taking-in", { hasText: "gone through" }).waitFor();
  await app.page.goto(`${app.served.url}#/office${part}`);
  await app.page.locator(part === "" ? ".visits-table" : ".office:not(:has(.take-in))").waitFor();
};

/** The form of a new sheet with what is wrong, doubtful and missing told. */
async function wrongSheet(app: App): Promise<void> {
  await at("/sheet")(app);
  await app.page.locator('[id="field-fuels.natural-gas.high.co2.max"]').fill("12,5");
  await app.page.locator('[id="field-fuels.natural-gas.high.co.max"]').fill("1,500");
  await app.page.getByRole("button", { name: "Save sheet" }).click({ force: true });
  await app.page.locator(".field-problem").first().waitFor();
}

/** Somebody's voice among the settings, and what is said of a file that is none. */
async function people(app: App): Promise<void> {
  await app.page.locator(".settings summary").click();
  for (const text of [await ownVoiceFile(), "[]"]) {
    await app.page
      .locator(".own-voice-people input[type=file]")
      .setInputFiles({ name: "v.json", mimeType: "application/json", buffer: Buffer.from(text) });
    await app.page.locator(".own-voice-people .notice li").waitFor();
  }
  await app.page.getByRole("radio", { name: "Ada Quill" }).waitFor();
}

/** A reading that has come to what a person before the microphone sees. */
async function taught(app: App, part: string): Promise<void> {
  const plan: ReadingPlan = { noiseSeconds: 1, words: ["yes"], takes: 2, sentences: [] };
  await seatPerson(app.launched.context, [], plan);
  await app.load();
  await at("/own-voice")(app);
  await app.page.getByLabel("Your name").fill("Ada Quill");
  await app.page.getByRole("button", { name: "Start", exact: true }).click();
  await app.page.locator(part).waitFor({ timeout: 60_000 });
}

/** At the boiler with key words that are listened for, these phrases typed. */
async function steered(app: App, part: string, ...phrases: readonly string[]): Promise<void> {
  await seatMouth(app.launched.context, [], "slt");
  await app.launched.context.addInitScript(deafPlatform);
  await app.changeSettings({ ear: "platform", platformMaySend: true });
  await app.startVisit();
  await app.listen();
  await app.keyWords();
  for (const phrase of phrases) await app.type(phrase);
  await app.page.locator(part).waitFor();
}

async function longNames(app: App): Promise<void> {
  const demo = JSON.parse(await readFile("demo-data/sheets/demo-50-dual-fuel.json", "utf8"));
  const title =
    "Donaudampfschifffahrtsgesellschaftskapitänskajütenheizkesselregulierungsventileinstellwerte 35 kW";
  for (let number = 1; number <= 7; number += 1)
    await app.bringIn(
      "own.json",
      JSON.stringify({ ...demo, id: `own-${number}`, title: `${number} ${title}` }),
    );
  await app.page.locator(".sheet-row input").first().check();
}

const SCREENS: readonly (readonly [name: string, open: (app: App) => Promise<unknown>])[] = [
  ["the start", async () => undefined],
  ["the start with long names, one chosen", longNames],
  [
    "the start's settings",
    async (app) => {
      await app.page.getByText("Settings", { exact: true }).click();
      await app.page.getByText("Bright sun").waitFor();
    },
  ],
  ["the first run", at("/welcome")],
  ["the people of a device, and a voice file that is none", people],
  ["teaching a voice, before it starts", at("/own-voice")],
  ["a word to be said", (app) => taught(app, ".own-voice-word")],
  ["what teaching brought", (app) => taught(app, ".own-voice-figures")],
  ["the sheets", at("/sheets")],
  ["the sheets with long names", async (app) => longNames(app).then(() => at("/sheets")(app))],
  ["a demo sheet", at("/sheet/demo-35")],
  ["a new sheet", at("/sheet")],
  ["a sheet with faults", wrongSheet],
  ["a reading in its limits", typed("high fire CO2 nine point two, CO forty")],
  ["a turn, and what was left out", typed("okay so high fire CO2 ten point five and CO forty")],
  [
    "a wait",
    typed("high fire CO2 ten point five, CO forty", "one turn counterclockwise", "CO2 nine point six"),
  ],
  ["warnings, new and open", typed("room CO fifty", "room CO two", "high fire CO2 nine, CO four hundred")],
  ["a question", typed("CO2 ninety two")],
  [
    "a value that is given figure by figure",
    (app) => steered(app, ".figures", "low fire CO2", "figure by figure"),
  ],
  ["the ear at rest", (app) => steered(app, ".rests", "stop listening")],
  [
    "the office, empty",
    async (app) => {
      await at("/office")(app);
      await app.page.locator(".take-in").waitFor();
    },
  ],
  ["the office's visits, and what was not taken in", office("")],
  [
    "the office with a question before all is deleted",
    async (app) => {
      await office("")(app);
      await app.page.getByRole("button", { name: "Delete all visits of the office" }).click();
    },
  ],
  ["the office's appliances", office("/appliances")],
  ["the history of an appliance", office("/appliance/B-102")],
  ["the office's follow-ups", office("/follow-ups")],
  ["a visit of the office, with its revisions", office("/visit/book-2")],
  ["a visit looked through, a mend open and refused", lookedOver],
  ["a note looked through, one of its tasks open", noted],
  ["the record of a visit", recorded],
  [
    "the start with the fields for the record",
    async (app) => {
      await app.page.getByText("For the record: appliance number and place").click();
      await app.page.getByLabel("Appliance (serial or plant number)").waitFor();
    },
  ],
  ["what a visit can be handed over as, among the visits", handedOver],
  ["the start with a backup's form, and a locked backup", lockedBackup],
  ["the start with a damaged backup", damagedBackup],
];

describe.each(SCREENS)("%s", (_, open) => {
  test("has no fault in any theme, and reads at 320 px and at twice the text size", () =>
    withApp({}, async (app) => {
      await app.page.setViewportSize({ width: 390, height: 844 });
      await open(app);
      await app.page.emulateMedia({ colorScheme: "light" });
      expect(await faults(app), "light").toEqual([]);
      await app.page.emulateMedia({ colorScheme: "dark" });
      expect(await faults(app, true), "dark").toEqual([]);
      await app.page.evaluate(() => document.documentElement.setAttribute("data-theme", "bright"));
      expect(await faults(app, true), "bright").toEqual([]);

      // WCAG 2.2, 1.4.10 Reflow: 320 CSS px without scrolling sideways; 1.4.4 Resize Text: 200 %.
      await app.page.setViewportSize({ width: 320, height: 640 });
      expect(await sideways(app)).toBe(0);
      await app.page.setViewportSize({ width: 390, height: 844 });
      await app.page.evaluate(() => {
        document.documentElement.style.fontSize = "200%";
      });
      expect(await sideways(app)).toBe(0);
      expect(await cutOff(app)).toEqual([]);
    }));
});

/** By how many px the page is wider than the screen. */
const sideways = (app: App) =>
  app.page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

/** Buttons and texts that are wider than the screen, by their words. */
const cutOff = (app: App) =>
  app.page.evaluate(() =>
    [...document.querySelectorAll("button, p, h1, h2, label, strong")]
      .filter((element) => element.getBoundingClientRect().right > document.documentElement.clientWidth + 1)
      .map((element) => element.textContent),
  );

test("the ring moves only where motion is not unwanted", () =>
  withApp({}, async (app) => {
    await typed("high fire CO2 ten point five, CO forty", "one turn counterclockwise")(app);
    const moves = (reducedMotion: "reduce" | "no-preference") =>
      app.page
        .emulateMedia({ reducedMotion })
        .then(() =>
          app.page.locator(".countdown-left").evaluate((ring) => getComputedStyle(ring).transitionDuration),
        );
    expect([await moves("no-preference"), await moves("reduce")]).toEqual(["0.25s", "0s"]);
  }));
