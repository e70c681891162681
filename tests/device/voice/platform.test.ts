import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { createPlatformVoice, localVoice } from "../../../src/device/voice/platform.ts";

const voice = (lang: string, localService: boolean, isDefault = false) =>
  ({ lang, localService, default: isDefault, name: lang, voiceURI: lang }) as SpeechSynthesisVoice;

class Utterance {
  lang = "";
  voice: SpeechSynthesisVoice | null = null;
  onend: (() => void) | null = null;
  onerror: ((event: { error: string }) => void) | null = null;
  constructor(readonly text: string) {}
}

/** A platform with these voices that never says by itself when an utterance is over. */
function platform(...voices: SpeechSynthesisVoice[]) {
  const asked: Utterance[] = [];
  const synthesis = Object.assign(new EventTarget(), {
    getVoices: () => voices,
    speak: (utterance: Utterance) => asked.push(utterance),
    cancel: vi.fn(),
  });
  return { asked, voices, synthesis, voice: createPlatformVoice(synthesis as unknown as SpeechSynthesis) };
}

beforeEach(() => void vi.stubGlobal("SpeechSynthesisUtterance", Utterance));
afterEach(() => {
  vi.unstubAllGlobals();
  vi.useRealTimers();
});
const settle = () => new Promise<void>((resolve) => setImmediate(resolve));

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
    ["none where there is none", [], undefined],
  ])("%s", (_, voices, lang) => expect(localVoice(voices, "en")?.lang).toBe(lang));

  test("where all are remote it says so, and asks for nothing", async () => {
    const { asked, voice: remote } = platform(voice("en-US", false));
    expect([await remote.say("pass"), asked]).toEqual([false, []]);
  });

  test("where the platform has no speech synthesis it says so", async () =>
    expect(await createPlatformVoice(undefined).say("pass")).toBe(false));
});

describe("the list of voices may come late", () => {
  test("then it is waited for", async () => {
    const { asked, voices, synthesis, voice: late } = platform();
    const saying = late.say("pass");
    await settle();
    expect(asked).toEqual([]);
    voices.push(voice("en-GB", true));
    synthesis.dispatchEvent(new Event("voiceschanged"));
    await settle();
    asked[0]?.onend?.();
    expect(await saying).toBe(true);
  });

  test("but not for ever", async () => {
    vi.useFakeTimers();
    const { voice: none } = platform();
    const saying = none.say("pass");
    await vi.runAllTimersAsync();
    expect(await saying).toBe(false);
  });
});

describe("an utterance is over", () => {
  test.each<[string, (utterance: Utterance) => void, boolean]>([
    ["when the platform says so", (u) => u.onend?.(), true],
    ["when it was cut off", (u) => u.onerror?.({ error: "canceled" }), true],
    ["when another interrupts", (u) => u.onerror?.({ error: "interrupted" }), true],
    ["when it fails, and was not said", (u) => u.onerror?.({ error: "synthesis-failed" }), false],
    ["when it is not allowed, and was not said", (u) => u.onerror?.({ error: "not-allowed" }), false],
  ])("%s", async (_, end, said) => {
    const { asked, voice: local } = platform(voice("en-GB", true));
    const saying = local.say("pass");
    await settle();
    const [utterance] = asked;
    expect([utterance?.text, utterance?.voice?.lang]).toEqual(["pass", "en-GB"]);
    if (utterance) end(utterance);
    expect(await saying).toBe(said);
  });

  test("after a while even where the platform never says so", async () => {
    vi.useFakeTimers();
    const { voice: local } = platform(voice("en-GB", true));
    const saying = local.say("pass");
    await vi.runAllTimersAsync();
    expect(await saying).toBe(true);
  });

  test.each([
    ["while it is spoken", [voice("en-GB", true)]],
    ["while the voices are awaited", []],
  ])("when cancelled %s", async (_, voices) => {
    const { voice: local, synthesis, asked } = platform(...voices);
    const saying = local.say("pass");
    await settle();
    local.cancel();
    expect(synthesis.cancel).toHaveBeenCalledOnce();
    synthesis.dispatchEvent(new Event("voiceschanged"));
    expect(await saying).toBe(true);
    expect(asked).toHaveLength(voices.length);
  });
});
