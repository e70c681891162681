import { expect, it } from "vitest";
import type { EarEvent } from "../../../src/device/ears/ear.ts";
import { createPlatformEar, platformOffer } from "../../../src/device/ears/platform.ts";
import type { PlatformRecognition, PlatformRecognitionClass } from "../../../src/device/ears/platform-api.ts";
import { numbersLanguage } from "../../support/speech/numbers-language.ts";

type Local = "unavailable" | "downloadable" | "available" | "cannot say";

/** A small stand-in for a browser's recogniser: an adapter is tested against what the draft says the platform does. */
function platform(local: Local) {
  const made: PlatformRecognition[] = [];
  let state = local;
  class Recognition implements PlatformRecognition {
    lang = "";
    continuous = false;
    interimResults = true;
    maxAlternatives = 1;
    processLocally = false;
    phrases = [];
    onstart: PlatformRecognition["onstart"] = null;
    onend: PlatformRecognition["onend"] = null;
    onresult: PlatformRecognition["onresult"] = null;
    onerror: PlatformRecognition["onerror"] = null;
    starts = 0;
    constructor() {
      made.push(this);
    }
    start(): void {
      this.starts += 1;
      this.onstart?.();
    }
    abort(): void {
      this.onend?.();
    }
  }
  const asked = {
    available: async () => (state === "cannot say" ? ("unavailable" as const) : state),
    install: async () => {
      state = "available";
      return true;
    },
  };
  const SpeechRecognition: PlatformRecognitionClass =
    local === "cannot say" ? Recognition : Object.assign(Recognition, asked);
  class SpeechRecognitionPhrase {
    constructor(
      readonly phrase: string,
      readonly boost: number,
    ) {}
  }
  return { made, scope: { SpeechRecognition, SpeechRecognitionPhrase } };
}

async function listen(local: Local, allowRemote: boolean) {
  const { made, scope } = platform(local);
  const events: EarEvent[] = [];
  let now = 0;
  const ear = createPlatformEar(numbersLanguage(), { allowRemote, scope, clock: () => now });
  await ear.listen((event) => events.push(event));
  now = 2000;
  return { ear, events, recognition: made[0] };
}

const result = (isFinal: boolean, ...transcripts: string[]) => ({
  resultIndex: 0,
  results: [
    Object.assign(
      transcripts.map((transcript, index) => ({ transcript, confidence: 0.9 - index / 10 })),
      { isFinal },
    ),
  ],
});

it.each<[Local, string]>([
  ["available", "on-device"],
  ["downloadable", "on-device"],
  ["unavailable", "may-send"],
  ["cannot say", "may-send"],
])("%s is offered as %s", async (local, offer) => {
  expect(await platformOffer("en-US", platform(local).scope)).toBe(offer);
});

it("offers nothing where there is nothing", async () => {
  expect(await platformOffer("en-US", {})).toBe("none");
});

it.each<[Local, boolean, boolean]>([
  ["available", false, true],
  ["downloadable", false, true],
  ["unavailable", true, false],
  ["cannot say", true, false],
])("%s, remote allowed: %s: starts, on the device: %s", async (local, allowRemote, onDevice) => {
  const { events, recognition } = await listen(local, allowRemote);
  expect(events.at(-1)).toEqual({ kind: "listening" });
  expect(recognition).toMatchObject({
    processLocally: onDevice,
    maxAlternatives: 5,
    lang: "en-US",
    continuous: true,
  });
  expect(recognition?.phrases).toContainEqual({ phrase: "ninety", boost: 3 });
});

it.each<Local>(["unavailable", "cannot say"])("%s: never starts on a remote one unasked", async (local) => {
  const { events, recognition } = await listen(local, false);
  expect(recognition).toBeUndefined();
  expect(events).toMatchObject([{ kind: "problem", message: expect.stringContaining("may send sound off") }]);
});

it("turns a final result's alternatives into hypotheses, and leaves the rest", async () => {
  const { events, recognition } = await listen("available", false);
  recognition?.onresult?.(result(false, "nine"));
  recognition?.onresult?.(result(true, "nine two", "nine to"));
  const utterances = events.filter((event) => event.kind === "utterance");
  expect(utterances).toHaveLength(1);
  expect(utterances[0]?.utterance).toMatchObject({ engine: "platform", rejected: false, audioSeconds: 2 });
  const said = utterances[0]?.utterance.hypotheses.map(({ words }) =>
    words.map(({ word }) => word).join(" "),
  );
  expect(said).toEqual(["nine two", "nine to"]);
});

it("drops what is heard while deaf, goes on after a silence, stops when told", async () => {
  const { ear, events, recognition } = await listen("available", false);
  ear.voiceSounds(true);
  recognition?.onresult?.(result(true, "nine two"));
  expect(recognition).toMatchObject({ starts: 1 });
  ear.voiceSounds(false);
  expect(recognition).toMatchObject({ starts: 2 });
  recognition?.onend?.();
  expect(recognition).toMatchObject({ starts: 3 });
  await ear.stop();
  expect(events.map(({ kind }) => kind)).toEqual(["listening", "stopped"]);
});

it.each<[string, string]>([
  ["not-allowed", "not allowed"],
  ["audio-capture", "lost or not found"],
  ["network", "needs a network"],
])("%s is one clear sentence", async (error, sentence) => {
  const { events, recognition } = await listen("available", false);
  recognition?.onerror?.({ error });
  expect(events.at(-1)).toMatchObject({ kind: "problem", message: expect.stringContaining(sentence) });
});
