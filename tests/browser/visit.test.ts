import { describe, expect, test } from "vitest";
import { spokenText } from "../../src/answer/spoken.ts";
import { withApp } from "./app.ts";

// Real Chromium, the built app, its real parser, judge and store. Limits are those of the demo's own sheet.

test("two readings of one phrase are judged, answered, and there after a reload", () =>
  withApp({}, async (app) => {
    await app.startVisit();
    await app.type("high fire CO2 nine point two, CO forty");

    expect(await app.text(".large")).toBe("9.2 %");
    expect(await app.text(".verdict >> nth=0")).toMatch(/In limits\s+limit 8.5 to 9.5 %/);
    expect(await app.text(".verdict >> nth=1")).toMatch(/CO 40 ppm\s+In limits\s+limit up to 150 ppm/);
    const spoken = await app.spoken();
    expect(spoken).toEqual([expect.stringMatching(/good/i)]);
    // The screen has figures where the voice has words.
    const shown = spokenText(await app.text(".answer")).toLowerCase();
    expect(spoken.map((text) => text.toLowerCase())).toEqual([shown]);

    await app.load();
    expect(await app.text(".large")).toBe("9.2 %");
    const kinds = (await app.stored()).map((row) => [row.seq, row.entry.body.kind]);
    expect(kinds.filter(([, kind]) => kind === "reading")).toHaveLength(2);
    expect(kinds.map(([seq]) => seq)).toEqual(kinds.map((_, index) => index));
    // Opening again says nothing by itself.
    expect(await app.spoken()).toEqual([]);

    await app.type("CO forty five");
    expect(await app.text(".line >> nth=0")).toContain("CO 45 ppm");
    expect(app.errors).toEqual([]);
  }));

describe("typed at the boiler", () => {
  test("CO2 out of its band gets a turn: which screw, how far, which way", () =>
    withApp({}, async (app) => {
      await app.startVisit();
      await app.type("high fire CO2 ten point five");
      expect(await app.text(".turn-screw")).toBe("High-fire screw");
      expect(await app.text(".turn-distance")).toBe("1 turn");
      // Clockwise raises CO2 on this sheet, and CO2 is too high.
      expect(await app.text(".turn-way")).toBe("counterclockwise");
      expect(await app.text(".verdict")).toContain("Out of limits");
      expect((await app.spoken())[0]).toMatch(/counterclockwise/);
    }));

  test("“scratch that” strikes the last reading and keeps it on the screen", () =>
    withApp({}, async (app) => {
      await app.startVisit();
      await app.type("high fire CO2 nine point two");
      await app.type("scratch that");
      expect(await app.texts(".struck s")).toEqual(["CO2 9.2 %, high fire"]);
      expect((await app.stored()).map((row) => row.entry.body.kind)).toEqual(
        expect.arrayContaining(["reading", "strike"]),
      );
    }));

  test("“no, nine point four” mends it", () =>
    withApp({}, async (app) => {
      await app.startVisit();
      await app.type("high fire CO2 nine point two");
      await app.type("no, nine point four");
      expect(await app.text(".large")).toBe("9.4 %");
      expect(await app.text(".struck")).toContain("CO2 9.2 %");
    }));

  test("each entry is on the disk before its answer is spoken, however fast phrases come", () =>
    withApp({}, async (app) => {
      await app.startVisit();
      const before = (await app.happenings()).length;
      for (const value of ["one", "two", "three"]) await app.send(`high fire CO2 nine point ${value}`);
      await app.page.locator(".line", { hasText: "CO2 9.3 %" }).waitFor();
      const happened = (await app.happenings()).slice(before);
      expect(happened).toHaveLength(6);
      // The voice says one after the other and may come behind the disk, never before it.
      let ahead = 0;
      for (const one of happened) {
        if (one.kind === "stored") expect(one.durability).toBe("strict");
        else expect(one.text).toMatch(/nine point (one|two|three)/i);
        ahead += one.kind === "stored" ? 1 : -1;
        expect(ahead).toBeGreaterThanOrEqual(0);
      }
      expect(ahead).toBe(0);
    }));

  test("a warning comes first and large", () =>
    withApp({}, async (app) => {
      await app.startVisit();
      await app.type("room CO eighty");
      expect(await app.text(".warning-word")).toBe("DANGER");
      expect(await app.text(".warning-text >> nth=0")).toMatch(/^Room CO .*leave now/i);
      expect((await app.spoken())[0]).toMatch(/leave now/i);
    }));

  test("a wait ticks, and is over by itself", () =>
    withApp({}, async (app) => {
      await app.page.clock.install();
      await app.load();
      await app.startVisit();
      await app.type("high fire CO2 ten point five");
      await app.type("turned it one turn counterclockwise");
      await app.page.clock.runFor(10_000);
      const seconds = Number(await app.text(".countdown-seconds"));
      expect(seconds).toBeGreaterThan(40);
      expect(seconds).toBeLessThanOrEqual(50);
      await app.page.clock.runFor(51_000);
      expect(await app.page.locator(".countdown").count()).toBe(0);
      expect((await app.spoken()).at(-1)).toMatch(/^Ready\. .*read/i);
    }));

  test("talk that is not for the log logs nothing and says nothing", () =>
    withApp({}, async (app) => {
      await app.startVisit();
      await app.type("hand me the four millimetre key");
      expect(await app.text(".heard-nothing")).toBe("Nothing for the log: “hand me the four millimetre key”");
      expect(await app.stored()).toEqual([]);
      expect(await app.spoken()).toEqual([]);
    }));

  test("the answer before it is then faint, and what was not understood is in sight above the plate", () =>
    withApp({}, async (app) => {
      await app.page.setViewportSize({ width: 390, height: 844 });
      await app.startVisit();
      await app.type("high fire CO2 ten point five, CO forty");
      expect(await app.page.locator(".answer-old").count()).toBe(0);
      await app.type("hand me the four millimetre key");
      expect(await app.page.locator(".answer-old").count()).toBe(1);
      const [nothing, controls] = await Promise.all(
        [".heard-nothing", ".controls"].map((one) => app.page.locator(one).boundingBox()),
      );
      if (!nothing || !controls) throw new Error("not shown");
      expect(nothing.y).toBeGreaterThanOrEqual(0);
      expect(nothing.y + nothing.height).toBeLessThanOrEqual(controls.y);
      // The next that is understood takes its place.
      await app.type("CO forty");
      expect(await app.page.locator(".answer-old, .heard-nothing").count()).toBe(0);
    }));

  test("without a sheet nothing is judged, and that is said", () =>
    withApp({}, async (app) => {
      await app.startVisit("Without a sheet");
      expect(await app.text(".visit-head")).toContain("nothing is judged");
      await app.type("high fire CO2 nine point two");
      expect(await app.text(".verdict")).toContain("No limit known");
      expect((await app.spoken())[0]).toMatch(/not judged/i);
    }));
});

test("a browser killed right after an answer goes on where it was", () =>
  withApp({}, async (app, reopen) => {
    await app.startVisit();
    await app.type("high fire CO2 nine point two, CO forty");
    const answer = await app.text(".answer");
    const before = await app.stored();
    expect(before.length).toBeGreaterThan(0);
    await app.launched.kill();

    const again = await reopen();
    expect(await again.text(".answer")).toBe(answer);
    expect(await again.text(".large")).toBe("9.2 %");
    expect(await again.stored()).toEqual(before);
    await again.type("CO forty five");
    expect((await again.stored()).length).toBe(before.length + 1);
  }));
