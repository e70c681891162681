import { afterEach, describe, expect, test, vi } from "vitest";
import { createSpeaker, localVoice } from "../../src/device/speaker.ts";

const voice = (lang: string, localService: boolean, isDefault = false) =>
  ({ lang, localService, default: isDefault, name: lang, voiceURI: lang }) as SpeechSynthesisVoice;

class Utterance {
  lang = "";
  voice: SpeechSynthesisVoice | null = null;
  onend: (() => void) | null = null;
  onerror: (() => void) | null = null;
  constructor(readonly text: string) {}
}

/** A platform with these voices that never says by itself when an utterance is over. */
function platform(...voices: SpeechSynthesisVoice[]) {
  vi.stubGlobal("SpeechSynthesisUtterance", Utterance);
  const asked: Utterance[] = [];
  const synthesis = {
    getVoices: () => voices,
    speak: (utterance: Utterance) => asked.push(utterance),
    cancel: () => {},
  } as unknown as SpeechSynthesis;
  return { asked, speaker: createSpeaker(synthesis) };
}

afterEach(() => void vi.unstubAllGlobals());

describe("only a voice that lives on the device", () => {
  test.each([
    [
      "the first of the language",
      [voice("de-AT", true), voice("en-GB", true), voice("en-US", true)],
      "en-GB",
    ],
    ["the default before the first", [voice("en-GB", true), voice("en-US", true, true)], "en-US"],
    ["never a remote one", [voice("en-US", false, true), voice("en-GB", true)], "en-GB"],
    ["none where all are remote", [voice("en-US", false)], undefined],
    ["none where there is none of the language", [voice("de-AT", true)], undefined],
  ])("%s", (_, voices, lang) => expect(localVoice(voices, "en")?.lang).toBe(lang));

  test("where all are remote nothing is asked for", async () => {
    const { asked, speaker } = platform(voice("en-US", false));
    await speaker.speak("CO2 nine point two");
    expect(asked).toEqual([]);
  });
});

test("a text is over when the platform says so", async () => {
  const { asked, speaker } = platform(voice("en-GB", true));
  let over = false;
  const speaking = speaker.speak("pass").then(() => {
    over = true;
  });
  await new Promise<void>((resolve) => setImmediate(resolve));
  expect([asked[0]?.text, over]).toEqual(["pass", false]);
  asked[0]?.onend?.();
  await speaking;
  expect(over).toBe(true);
});

test("cancelling ends all that wait", async () => {
  const { speaker } = platform(voice("en-GB", true));
  const all = [speaker.speak("one"), speaker.speak("two")];
  speaker.cancel();
  await expect(Promise.all(all)).resolves.toHaveLength(2);
});

test("without any voice it is asked for, and over at once", async () => {
  const { asked, speaker } = platform();
  await speaker.speak("pass");
  expect(asked.map((utterance) => utterance.text)).toEqual(["pass"]);
});

test("without speech synthesis it is over at once", async () => {
  await expect(createSpeaker(undefined).speak("pass")).resolves.toBeUndefined();
});
