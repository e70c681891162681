import { expect, test } from "vitest";
import { hashOf, type Place } from "../../src/app/place.ts";
import { visible } from "../../src/measure/harmless.ts";
import { exportVisit } from "../../src/record/bundle.ts";
import { exportSheet } from "../../src/record/sheet-file.ts";
import { hostileVisit, RUNS_FIRST, STEERS_FIRST, TRICKS } from "../support/hostile-visit.ts";
import { type App, withApp } from "./app.ts";

// A visit and a sheet with a trick wherever words, names and ids may stand, on every screen that shows them.

const VISITS = [hostileVisit(STEERS_FIRST), hostileVisit(RUNS_FIRST)];

/** Texts and attributes on the screen that steer what stands around them, hidden or not; not what is in a field, nor names that nobody is shown. */
const steering = (app: App): Promise<string[]> =>
  app.page.evaluate(() => {
    const sign = /(?![\n\r\t])(?!\p{Join_Control}|\p{Variation_Selector})[\p{Cc}\p{DI}\p{Zl}\p{Zp}]/u;
    const names = ["value", "id", "for", "aria-controls", "aria-labelledby", "aria-describedby"];
    const found = sign.test(document.title) ? [`title: ${document.title}`] : [];
    const walker = document.createTreeWalker(
      document.documentElement,
      NodeFilter.SHOW_TEXT | NodeFilter.SHOW_ELEMENT,
    );
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      if (node instanceof Element) {
        for (const { name, value } of node.attributes)
          if (!names.includes(name) && sign.test(value)) found.push(`${node.tagName} ${name}: ${value}`);
      } else if (sign.test(node.nodeValue ?? "") && node.parentElement?.tagName !== "TEXTAREA")
        found.push(`${node.parentElement?.tagName}.${node.parentElement?.className}: ${node.nodeValue}`);
    }
    return found;
  });

/** What came of the tricks in the page: scripts that ran, elements that are none of the app's. */
const came = (app: App) =>
  app.page.evaluate(() => ({
    ran: Reflect.get(globalThis, "ran") ?? null,
    foreign: [
      ...document.querySelectorAll(
        "img, iframe, object, embed, form[action], a[href^='javascript'], #quotes, body script, [onerror], [onload]",
      ),
    ].map((element) => element.outerHTML.slice(0, 200)),
  }));

const file = (name: string, text: string) => ({
  name,
  mimeType: "application/json",
  buffer: Buffer.from(text),
});

test("no trick of a file runs, turns or hides anything on any screen", () =>
  withApp({}, async (app) => {
    const found: unknown[] = [];
    const look = async (name: string) => {
      const turned = await steering(app);
      const { ran, foreign } = await came(app);
      if (turned.length > 0 || ran !== null || foreign.length > 0) found.push({ name, turned, ran, foreign });
    };
    const open = async (place: Place, shown: string) => {
      await app.page.goto(`${app.served.url}#${hashOf(place)}`);
      await app.page.locator(shown).first().waitFor();
      await look(JSON.stringify(place).slice(0, 60));
    };
    for (const { head } of VISITS)
      if (head.sheet) await app.bringIn(`${TRICKS.turned}.json`, exportSheet(head.sheet));
    for (const visit of VISITS) await app.bringIn(`${TRICKS.turned}.json`, exportVisit(visit));
    const told = await app.bringIn(`${TRICKS.turned}.json`, `{"format": ${JSON.stringify(STEERS_FIRST)}}`);
    expect(told.join("")).toContain("format: Expected one of");
    expect(told.join("")).toBe(visible(told.join("")));
    await open({ kind: "start" }, ".start");
    await app.page
      .getByRole("button", { name: /^Export: / })
      .first()
      .click();
    await look("start, export");
    await open({ kind: "sheets" }, ".sheet-row, h1");
    for (const { head } of VISITS) {
      await open({ kind: "afterwards", visitId: head.id }, ".said-row");
      await open({ kind: "record", visitId: head.id }, ".record-plate");
      await open({ kind: "sheet", id: head.sheet?.id ?? null }, "form");
    }
    await app.page.goto(`${app.served.url}#/office`);
    await app.page
      .locator("input[type=file]")
      .first()
      .setInputFiles(VISITS.map((visit) => file(`${visit.head.id.slice(0, 50)}.json`, exportVisit(visit))));
    await app.page
      .getByText(/2 files gone through|gone through/)
      .first()
      .waitFor();
    await look("office");
    for (const { head } of VISITS)
      await open({ kind: "office", part: { kind: "visit", id: head.id } }, ".office-record[aria-busy=false]");
    await open({ kind: "office", part: { kind: "follow-ups" } }, ".follow-up");
    await open({ kind: "office", part: { kind: "appliances" } }, ".office-row");
    await app.page.locator(".office-row a").first().click();
    await app.page.locator(".history-table").waitFor();
    await look("appliance");
    expect(found).toEqual([]);
    expect(app.errors).toEqual([]);
  }));
