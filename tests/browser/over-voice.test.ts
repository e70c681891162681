import { expect, test } from "vitest";
import type { App } from "./app.ts";
import { withMicrophone } from "./microphone.ts";

// What the microphone hears while the app speaks. The voice is one that takes its time over a long answer.

const READING = "high fire CO2 nine point two, CO forty";
const SAID = { phrases: [READING, "stop listening"], before: 10, pause: 4 };

/** Runs in the page before the app: a voice that goes on until it is cut off, and how often it was. */
function slowVoice(): void {
  const cuts: string[] = [];
  Object.assign(globalThis, { cuts });
  let saying: string | null = null;
  const { speak } = SpeechSynthesis.prototype;
  SpeechSynthesis.prototype.speak = (utterance) => {
    const { text } = utterance;
    // Kept from its end, which the one beneath tells at once.
    Reflect.apply(speak, speechSynthesis, [Object.assign(new EventTarget(), { text })]);
    saying = text;
  };
  SpeechSynthesis.prototype.cancel = () => {
    if (saying !== null) cuts.push(saying);
    saying = null;
  };
}

const cuts = (app: App) => app.page.evaluate(() => (globalThis as unknown as { cuts: string[] }).cuts);

/** Runs in the page: whether the notebook has the setting. */
function headsetStored(): Promise<boolean> {
  return new Promise((resolve) => {
    const opening = indexedDB.open("burnerside");
    opening.onsuccess = () => {
      const reading = opening.result.transaction("settings").objectStore("settings").get("settings");
      reading.onsuccess = () => {
        opening.result.close();
        resolve(reading.result?.value?.headset === true);
      };
    };
  });
}

/** Listens, and has the app begin a long answer before the first phrase is said. */
async function beginAnswer(app: App): Promise<string> {
  await app.page.addInitScript(slowVoice);
  await app.load();
  await app.startVisit();
  await app.listen();
  await app.type("what's next");
  const answer = await app.page.evaluate(
    () => (globalThis as unknown as { happened: { text?: string }[] }).happened.at(-1)?.text ?? "",
  );
  // The app itself gives up on a voice after 3 s and 0.12 s a letter: long enough for both phrases.
  expect(answer.length).toBeGreaterThan(110);
  await app.page.locator(".ear-area.speaking").waitFor();
  return answer;
}

const readings = async (app: App) =>
  (await app.stored()).flatMap(({ entry: { body } }) => (body.kind === "reading" ? [body] : []));

test("over the app's voice a reading is not logged, and “stop listening” interrupts", () =>
  withMicrophone(SAID, async (app) => {
    const answer = await beginAnswer(app);
    await app.page.locator(".ear-off").waitFor({ timeout: 30_000 });
    expect(await cuts(app)).toEqual([answer]);
    expect(await app.spoken()).toEqual([answer, "Not listening."]);
    expect(await readings(app)).toEqual([]);
    expect(app.errors).toEqual([]);
  }));

test("with a headset the reading is logged and cuts the voice off", () =>
  withMicrophone(SAID, async (app) => {
    await app.page.getByText("Settings", { exact: true }).click();
    await app.page.getByLabel("I wear a headset").check();
    // On the disk before the page is loaded anew.
    await app.page.waitForFunction(headsetStored);
    const answer = await beginAnswer(app);
    await app.page.locator(".ear-off").waitFor({ timeout: 30_000 });
    expect((await cuts(app))[0]).toBe(answer);
    expect(await readings(app)).toMatchObject([
      { quantity: "co2", value: 9.2, firing: "high" },
      { quantity: "co", value: 40, firing: "high" },
    ]);
    expect((await app.spoken()).at(-1)).toBe("Not listening.");
    expect(app.errors).toEqual([]);
  }));
