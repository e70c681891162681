import { expect, test } from "vitest";
import { type App, withApp } from "./app.ts";
import { deafPlatform, says, seatMouth } from "./mouth.ts";

// The key words as they ship, in a browser: heard by the model, while the phrase recogniser hears nothing.

const WORDS = ["yes", "no", "stop", "mark", "nine", "point", "two", "next"];

/** A visit that listens, with a person before the microphone. */
function listening(
  work: (app: App, say: (...words: string[]) => Promise<void>) => Promise<void>,
): Promise<void> {
  return withApp(
    {
      prepare: async (context) => {
        await seatMouth(context, WORDS, "slt");
        await context.addInitScript(deafPlatform);
      },
    },
    async (app) => {
      await app.changeSettings({ ear: "platform", platformMaySend: true });
      await app.startVisit();
      await app.listen();
      await app.keyWords();
      await work(app, async (...words) => {
        for (const word of words) await says(app.page, word);
      });
      expect(app.errors).toEqual([]);
    },
  );
}

/** The readings that are stored, and how they were heard. */
async function readings(app: App): Promise<string[]> {
  const { entries } = await app.wholeLog();
  return entries.flatMap(({ engine, body }) =>
    body.kind === "reading" ? [`${body.quantity} ${body.value}, ${body.firing}, ${engine}`] : [],
  );
}

test("“stop” rests, “mark” wakes, a tap turns all off", () =>
  listening(async (app, say) => {
    await say("stop");
    await app.page.locator(".ear-resting").waitFor();
    expect(await app.spoken()).toEqual(["Not listening."]);
    expect(await app.text(".rests")).toMatch(/“mark” wakes it\. The microphone stays open/);
    expect(await app.open()).toBe(1);
    await app.page.waitForTimeout(1500);
    await say("yes", "mark");
    await app.page.locator(".ear-listening").waitFor();
    expect(await app.open()).toBe(1);
    await app.page.locator(".ear").click();
    await app.page.locator(".ear-off").waitFor();
    await expect.poll(() => app.open()).toBe(0);
  }));

test("“yes” answers the question once, where the recogniser heard nothing", () =>
  listening(async (app, say) => {
    await app.type("high fire CO2 ninety two");
    expect(await readings(app)).toEqual([]);
    await app.page.waitForTimeout(1500);
    await say("yes");
    await app.page.locator(".line", { hasText: "CO2 9.2 %" }).waitFor();
    await say("yes", "no");
    await app.page.waitForTimeout(2000);
    expect(await readings(app)).toEqual(["co2 9.2, high, key-words"]);
  }));

test("a value is given figure by figure, read back, and logged after a yes", () =>
  listening(async (app, say) => {
    await app.type("low fire CO2");
    await app.page.getByRole("button", { name: "Figure by figure" }).click();
    await app.page.locator(".figures").waitFor();
    await app.page.waitForTimeout(1500);
    await say("nine", "point", "two");
    expect(await app.text(".figures-value")).toMatch(/^9\.2/);
    await app.page.locator(".figures-value", { hasText: "9.2?" }).waitFor();
    expect((await app.spoken()).at(-1)).toBe("Low fire C O two, nine point two?");
    expect(await readings(app)).toEqual([]);
    await app.page.waitForTimeout(1500);
    await say("yes");
    await app.page.locator(".line", { hasText: "CO2 9.2 %, low fire" }).waitFor();
    expect(await readings(app)).toEqual(["co2 9.2, low, key-words"]);
    expect(await app.page.locator(".figures").count()).toBe(0);
  }));
