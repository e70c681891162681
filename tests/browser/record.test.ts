import { readFile } from "node:fs/promises";
import { describe, expect, test } from "vitest";
import { exportVisit } from "../../src/record/bundle.ts";
import { SECTION_IDS } from "../../src/record/report/parts.ts";
import { colour, type PdfFile, readPdf, squeezed } from "../support/pdf-pages.ts";
import { reviewVisit } from "../support/review-visit.ts";
import { type App, withApp } from "./app.ts";
import { closeForgetful, untilInstalled, withDevice } from "./installed.ts";
import { keptSettings } from "./kept-settings.ts";

// The record of a visit on the screen, on paper and as a file, made by the page under its own policy.

const button = (app: App, name: string | RegExp) => app.page.getByRole("button", { name });
const section = (app: App, id: string) => app.text(`.record-${id}`);

/** Opens the record of the newest visit from the start. */
async function openRecord(app: App): Promise<void> {
  await button(app, /^Visit record: /)
    .first()
    .click();
  await app.page.locator(".record-plate").waitFor();
}

/** Saves the record, and reads the file with another program. */
async function saved(app: App): Promise<PdfFile & { readonly name: string }> {
  const [file] = await Promise.all([app.page.waitForEvent("download"), button(app, "Save as PDF").click()]);
  const bytes = new Uint8Array(await readFile(await file.path()));
  return { ...(await readPdf(bytes)), name: file.suggestedFilename() };
}

const allText = ({ pages }: PdfFile) => pages.map(({ text }) => text).join(" ");

test("from the settings and the start to the file: who, where, with what, what was read and left open", () =>
  withApp({}, async (app) => {
    await app.page.getByText("Settings", { exact: true }).click();
    await app.page.getByLabel("Technician").fill("Ada Quill");
    await app.page.getByLabel("Licence or registration number").fill(" 0417 ");
    await app.page.getByLabel("Firm", { exact: true }).fill("Tallowbeck Heating");
    await app.page.getByLabel("Instrument", { exact: true }).fill("Flue gas analyser");
    await app.page.getByLabel("Its serial number").fill("FG-871");
    await app.page.getByLabel("Calibrated on").fill("2020-01-15");
    await app.page.getByLabel("Calibrated on").blur();
    const instrument = { name: "Flue gas analyser", serial: "FG-871", calibratedOn: "2020-01-15" };
    const who = { technician: "Ada Quill", licence: "0417", firm: "Tallowbeck Heating" };
    await keptSettings(app, { ...who, instrument });
    await app.page.reload();
    await app.page.getByText("For the record: appliance number and place").click();
    await app.page
      .getByText("By Ada Quill, Tallowbeck Heating, licence or registration number 0417, as in the settings.")
      .waitFor();
    await app.page.getByLabel("Appliance (serial or plant number)").fill("OM-2217");
    await app.startVisit();
    for (const phrase of ["high fire CO2 eight point two, CO forty", "half clockwise", "room CO twelve"])
      await app.type(phrase);
    const [first] = await app.stored();
    const details = { appliance: "OM-2217", place: "", ...who, instrument };
    expect(first).toMatchObject({ seq: 0, entry: { body: { kind: "details", details } } });

    // Edited afterwards, as one more entry.
    await button(app, "Look it over").click();
    await app.page.getByLabel("Place", { exact: true }).fill("Mill lane, boiler room");
    await app.page.getByLabel("Licence or registration number").fill("0418");
    await button(app, "Keep these details").click();
    await app.page.getByText("As kept.").waitFor();
    expect((await app.stored()).at(-1)?.entry.body).toMatchObject({
      kind: "details",
      details: { ...details, place: "Mill lane, boiler room", licence: "0418" },
    });

    await button(app, "Visit record").click();
    await app.page.locator(".record-plate").waitFor();
    expect(await app.page.evaluate(() => document.activeElement?.textContent)).toBe("Visit record");
    expect(await section(app, "appliance")).toMatch(/OM-2217[\s\S]*Mill lane, boiler room[\s\S]*Natural gas/);
    expect(await section(app, "instrument")).toMatch(/FG-871[\s\S]*15 Jan 2020[\s\S]*more than 12 months/);
    expect(await section(app, "readings")).toMatch(/8\.2 %\s*Out of limits/);
    expect(await section(app, "turns")).toContain("½ ↻");
    expect(await section(app, "warnings")).toContain("Room CO 12. Look for the source.");
    expect(await section(app, "review")).toContain("not reviewed");
    expect(await app.page.locator(".record-section").count()).toBe(SECTION_IDS.length);

    const file = await saved(app);
    expect(file.name).toMatch(/^burnerside-record-demo-wall-hung-35-kw-natural-gas-[\d-]+-[\w-]+\.pdf$/);
    expect(file.pages.length).toBeLessThanOrEqual(2);
    for (const words of [
      "Ada Quill, Tallowbeck Heating, licence or registration number 0418",
      "OM-2217",
      "Mill lane, boiler room",
      "8.2 % × OUT OF LIMITS",
      "½ ↻",
    ])
      expect(allText(file)).toContain(words);
    await app.page.getByText(`Saved: ${file.name}`).waitFor();
    expect(app.errors).toEqual([]);
    // Its number is offered for the next visit there.
    await button(app, "To the start").click();
    await app.page.getByText("For the record: appliance number and place").click();
    await app.page.getByLabel("Appliance (serial or plant number)").focus();
    await app.page.locator('datalist option[value="OM-2217"]').waitFor({ state: "attached" });
  }));

describe("without a network", () => {
  test("fetched ahead, the file is made in a cellar", () =>
    withDevice(async (device) => {
      const first = await device.open();
      await untilInstalled(first.page);
      await first.page.getByText("Settings", { exact: true }).click();
      await button(first, "PDF maker: fetch for offline use").click();
      await first.page.getByText(/^PDF maker: here, /).waitFor({ timeout: 60_000 });
      await closeForgetful(first);
      await device.goOffline();

      const app = await device.open();
      await app.startVisit();
      await app.type("high fire CO2 nine point two, CO forty");
      await button(app, "To the start").click();
      await openRecord(app);
      expect(allText(await saved(app))).toContain("9.2 % In limits");
    }));
  test("made once with a network, the next is made without one; never made, that is said", () =>
    withDevice(async (device) => {
      const first = await device.open();
      await untilInstalled(first.page);
      await first.bringIn("visit.json", exportVisit(reviewVisit()));
      await device.goOffline();
      await openRecord(first);
      await button(first, "Save as PDF").click();
      expect(await first.text(".notice-problem")).toMatch(/\./);
      await device.goOnline();
      expect((await saved(first)).pages.length).toBeGreaterThan(0);
      await closeForgetful(first);
      await device.goOffline();

      const app = await device.open();
      await openRecord(app);
      expect(allText(await saved(app))).toContain("Otterfold mill, boiler room");
    }));
});

test.each(["A4", "Letter"] as const)(
  "printed on %s by the browser it is two pages, grey, with all sections",
  (format) =>
    withApp({}, async (app) => {
      await app.bringIn("visit.json", exportVisit(reviewVisit()));
      await openRecord(app);
      expect(await app.page.title()).toBe("Otterfold mill, boiler room: visit record");
      const names = await app.texts(".record-section > h2");
      const file = await readPdf(new Uint8Array(await app.page.pdf({ format })));
      expect(file.pages.length).toBeLessThanOrEqual(2);
      const text = squeezed(allText(file));
      for (const name of names) expect(text).toContain(squeezed(name));
      expect(text).not.toContain(squeezed("Save as PDF"));
      expect(file.title).toBe("Otterfold mill, boiler room: visit record");
      file.pages.forEach((page, i) => {
        expect(colour(page)).toBeLessThan(3);
        expect(page.text).toContain("Otterfold mill");
        expect(page.text).toContain(`Page ${i + 1} of ${file.pages.length}`);
      });
      await button(app, "To the start").click();
      await expect.poll(() => app.page.title()).toBe("Burnerside");
    }),
);

test("printed from a phone the trace is as wide as the paper", () =>
  withApp({}, async (app) => {
    await app.page.setViewportSize({ width: 390, height: 844 });
    await app.bringIn("visit.json", exportVisit(reviewVisit()));
    await openRecord(app);
    await app.page.emulateMedia({ media: "print" });
    const shown = app.page.locator(".trace svg:visible");
    expect(await shown.count()).toBe(1);
    expect(await shown.getAttribute("viewBox")).toMatch(/^0 0 820 /);
  }));

test("what would turn the text around it is a visible sign on every screen that shows it", () =>
  withApp({}, async (app) => {
    const visit = reviewVisit();
    const hostile = {
      ...visit,
      head: { ...visit.head, title: "down\u202Egpj.exe" },
      entries: visit.entries.map((entry) => ({
        ...entry,
        phrase: entry.phrase && `${entry.phrase} \u202Eabc`,
        said: entry.said && `${entry.said} \u202Eabc`,
        body: entry.body.kind === "note" ? { ...entry.body, text: "siphon \u202Enaelc" } : entry.body,
      })),
    };
    await app.bringIn("visit.json", exportVisit(hostile));
    const looked: string[] = [];
    const look = async (name: string) => {
      looked.push(name);
      const text = await app.page.evaluate(() => `${document.body.textContent}${document.title}`);
      expect([name, text.includes("down□gpj.exe"), text.includes("\u202E")]).toEqual([name, true, false]);
    };
    await button(app, /^Go on: /)
      .first()
      .waitFor();
    await look("start");
    await openRecord(app);
    await look("record");
    await button(app, "Look it over").click();
    await app.page.getByText("“", { exact: false }).first().waitFor();
    await look("afterwards");
    await button(app, "Go on at the boiler").click();
    await app.page.locator(".log .line").first().waitFor();
    await look("boiler");
    expect(looked).toHaveLength(4);
  }));

test("a calibration after the day of the visit is told where it is typed, and what it was stands in the record", () =>
  withApp({}, async (app) => {
    await app.bringIn("visit.json", exportVisit(reviewVisit()));
    await button(app, /^Look it over: /)
      .first()
      .click();
    const field = app.page.getByLabel("Calibrated on");
    await field.fill("2020-01-15");
    expect(await app.page.getByText(/check the date/).count()).toBe(0);
    await button(app, "Keep these details").click();
    await app.page.getByText("As kept.").waitFor();
    await app.page.getByLabel("Calibrated on").fill("2027-03-01");
    await app.page.getByText(/^After \d+ \w+ 2026: check the date\.$/).waitFor();
    await button(app, "Keep these details").click();
    await app.page.getByText("As kept.").waitFor();
    await button(app, "Visit record").click();
    await app.page.locator(".record-plate").waitFor();
    expect(await section(app, "changed")).toContain("Calibrated on 15 Jan 2020, now 1 Mar 2027");
    expect(app.errors).toEqual([]);
  }));

describe("the platform's share sheet", () => {
  test("is offered where there is one, with the file", () =>
    withApp({}, async (app) => {
      await app.page.addInitScript(() => {
        const shared: string[] = [];
        Object.assign(globalThis, { shared });
        Navigator.prototype.canShare = () => true;
        Navigator.prototype.share = async ({ files = [] } = {}) => {
          for (const file of files)
            shared.push(`${file.name} ${file.type} ${(await file.text()).slice(0, 5)}`);
        };
      });
      await app.load();
      await app.bringIn("visit.json", exportVisit(reviewVisit()));
      await openRecord(app);
      await button(app, "Share").click();
      await expect
        .poll(() => app.page.evaluate(() => Reflect.get(globalThis, "shared")), { timeout: 10_000 })
        .toEqual([
          expect.stringMatching(/^burnerside-record-otterfold-mill-.*\.pdf application\/pdf %PDF-$/),
        ]);
      expect(app.errors).toEqual([]);
    }));
  test("is not offered where there is none", () =>
    withApp({}, async (app) => {
      await app.page.addInitScript(() => {
        Object.defineProperty(Navigator.prototype, "canShare", { value: undefined });
      });
      await app.load();
      await app.bringIn("visit.json", exportVisit(reviewVisit()));
      await openRecord(app);
      expect(await button(app, "Share").count()).toBe(0);
    }));
});

test("a record that is not there is said to be none, and the start is shown", () =>
  withApp({}, async (app) => {
    await app.page.goto(`${app.served.url}#/record/nobody`);
    expect(await app.text(".notice-problem")).toContain("No visit nobody is in the notebook");
    await app.page.locator(".nameplate").waitFor();
  }));
