import { readFile } from "node:fs/promises";
import { expect, test } from "vitest";
import { Entry } from "../../src/visit/entry.ts";
import { withMicrophone } from "./microphone.ts";

// A whole visit by voice: nothing is typed or tapped between the start of listening and the end of the visit.

const SETTLE = 2;
const PHRASES = [
  "static gas pressure seven inches",
  "dynamic gas pressure six point five inches",
  "high fire CO2 ten point five, CO forty",
  "high fire screw one turn counterclockwise",
  "CO2 nine point two, CO forty",
  "low fire CO2 nine point one, CO thirty",
  "high fire CO2 nine point two, CO forty",
  "low fire cap back on",
  "test mode off",
  "manometer removed",
  "pressure test screw closed",
  "test port plugged",
  "panel back on",
  "leak check done",
  "finish visit",
];

test(
  "a visit is set up, closed and finished by voice alone",
  () =>
    withMicrophone({ phrases: PHRASES, pause: SETTLE + 1 }, async (app) => {
      await app.keepMicrophones();
      const demo = JSON.parse(await readFile("demo-data/sheets/demo-35.json", "utf8"));
      const sheet = {
        ...demo,
        id: "quick",
        title: "Quick sheet",
        settleSeconds: { high: SETTLE, low: SETTLE },
      };
      await app.bringIn("quick.json", JSON.stringify(sheet));
      await app.startVisit("Quick sheet", "us");
      await app.listen();
      await app.page.locator(".face", { hasText: "Visit finished" }).waitFor({ timeout: 200_000 });

      // Nobody has to be heard any more.
      await app.page.locator(".ear-off").waitFor();
      await expect.poll(() => app.tracks()).toEqual(["ended"]);

      const logged = (await app.stored()).map(({ entry }) => Entry.parse(entry));
      expect(logged.map(({ engine }) => engine)).toEqual(logged.map(() => "offline"));
      expect(logged.filter(({ body }) => body.kind === "unsure").map(({ said }) => said)).toEqual([]);
      const bodies = logged.map(({ body }) => body);
      const read = (quantity: string) =>
        bodies.flatMap((body) => (body.kind === "reading" && body.quantity === quantity ? [body.value] : []));
      expect(read("co2")).toEqual([10.5, 9.2, 9.1, 9.2]);
      expect(read("co")).toEqual([40, 40, 30, 40]);
      expect(read("gas-pressure-inlet")).toEqual([7, 6.5]);
      expect(bodies.flatMap((body) => (body.kind === "adjustment" ? [body.turns] : []))).toEqual([-1]);
      expect(bodies.filter(({ kind }) => kind === "check")).toHaveLength(7);
      // Nothing is left open: no warning with the last word.
      expect(await app.page.locator(".warning").count()).toBe(0);
      const said = await app.spoken();
      expect(said.some((text) => /counterclockwise/.test(text))).toBe(true);
      expect(said.at(-1)).toMatch(/finished/i);
      expect(app.errors).toEqual([]);
    }),
  300_000,
);
