import type { Hypothesis, Utterance } from "../../meaning/heard.ts";
import type { EarLanguage } from "../../meaning/network.ts";
import type { Ear, EarEvent } from "./ear.ts";
import type {
  PlatformErrorEvent,
  PlatformRecognition,
  PlatformRecognitionClass,
  PlatformResult,
  PlatformScope,
} from "./platform-api.ts";

/** What the platform offers: nothing, a recogniser that stays on the device, or one that may send sound away. */
export type PlatformOffer = "none" | "on-device" | "may-send";

export interface PlatformOptions {
  /** Whether the person agreed that sound leaves the device. */
  readonly allowRemote: boolean;
  /** Milliseconds; for the length of an utterance, which the platform does not tell. */
  readonly clock: () => number;
  /** The browser's window. */
  readonly scope: PlatformScope;
}

const ALTERNATIVES = 5;
/** The draft allows 0 to 10. */
const BOOST = 3;

/** Asks the browser; starts and installs nothing. */
export async function platformOffer(language: string, scope: PlatformScope): Promise<PlatformOffer> {
  const recogniser = recogniserOf(scope);
  if (!recogniser) return "none";
  const local = await availableLocally(recogniser, language);
  return local === "unavailable" ? "may-send" : "on-device";
}

/** The browser's own recogniser. On the device where it can be; it never starts on a remote one unless allowed. */
export function createPlatformEar(language: EarLanguage, options: PlatformOptions): Ear {
  const { scope, allowRemote, clock } = options;
  let running: PlatformRecognition | null = null;
  let starting = false;
  let deaf = false;
  /** Whether the platform has ended and waits to be started again. */
  let ended = false;
  let begun = 0;
  let tell: (event: EarEvent) => void = () => undefined;

  const end = (event: EarEvent): void => {
    const ended = running;
    running = null;
    ended?.abort();
    tell(event);
  };

  const resume = (recognition: PlatformRecognition): void => {
    ended = false;
    begun = clock();
    recognition.start();
  };

  const attend = (recognition: PlatformRecognition): void => {
    recognition.onresult = ({ resultIndex, results }) => {
      if (running !== recognition) return;
      for (let index = resultIndex; index < results.length; index++) {
        const result = results[index];
        if (!result?.isFinal) continue;
        const seconds = (clock() - begun) / 1000;
        begun = clock();
        if (!deaf) tell({ kind: "utterance", utterance: utteranceOf(result, seconds), over: false });
      }
    };
    recognition.onerror = (event) => {
      const message = problemOf(event);
      if (running === recognition && message) end({ kind: "problem", message });
    };
    // Browsers end by themselves after a silence: go on until told to stop. While deaf, wait.
    recognition.onend = () => {
      ended = true;
      if (running === recognition && !deaf) resume(recognition);
    };
  };

  return {
    engine: "platform",
    async listen(on) {
      if (running || starting) return;
      tell = on;
      starting = true;
      const prepared = await prepare(language, scope, allowRemote, (fraction) =>
        tell({ kind: "loading", fraction }),
      );
      if (!starting) return;
      starting = false;
      if (!prepared.ok) return tell({ kind: "problem", message: prepared.message });
      const { recognition } = prepared;
      attend(recognition);
      running = recognition;
      ended = false;
      await new Promise<void>((resolve) => {
        recognition.onstart = () => {
          begun = clock();
          recognition.onstart = null;
          tell({ kind: "listening" });
          resolve();
        };
        const failed = recognition.onerror;
        recognition.onerror = (event) => {
          failed?.(event);
          resolve();
        };
        recognition.start();
      });
    },
    voiceSounds(next) {
      if (next === deaf) return;
      deaf = next;
      // Results come late: what was heard while deaf must not arrive after, so it is thrown away at the source.
      if (deaf) running?.abort();
      else if (running && ended) resume(running);
    },
    async stop() {
      const was = running !== null || starting;
      starting = false;
      if (was) end({ kind: "stopped" });
    },
  };
}

type Prepared =
  | { readonly ok: true; readonly recognition: PlatformRecognition }
  | { readonly ok: false; readonly message: string };

async function prepare(
  language: EarLanguage,
  scope: PlatformScope,
  allowRemote: boolean,
  progress: (fraction: number) => void,
): Promise<Prepared> {
  const recogniser = recogniserOf(scope);
  if (!recogniser) return refused("This browser has no recogniser of its own: use the offline ear, or type.");
  const local = await makeLocal(recogniser, language.tag, progress);
  if (!local && !allowRemote) {
    return refused(
      "This browser's recogniser may send sound off the device, and that was not allowed: use the offline ear, or type.",
    );
  }
  const recognition = new recogniser();
  recognition.lang = language.tag;
  recognition.continuous = true;
  recognition.interimResults = false;
  recognition.maxAlternatives = ALTERNATIVES;
  if (local) recognition.processLocally = true;
  bias(recognition, language, scope);
  return { ok: true, recognition };
}

function refused(message: string): Prepared {
  return { ok: false, message };
}

/** Whether it runs on the device now, after installing the language if that is offered. */
async function makeLocal(
  recogniser: PlatformRecognitionClass,
  language: string,
  progress: (fraction: number) => void,
): Promise<boolean> {
  const state = await availableLocally(recogniser, language);
  if (state === "available") return true;
  if (state === "unavailable" || !recogniser.install) return false;
  progress(0);
  const installed = await recogniser.install({ langs: [language], processLocally: true }).catch(() => false);
  progress(1);
  return installed && (await availableLocally(recogniser, language)) === "available";
}

async function availableLocally(recogniser: PlatformRecognitionClass, language: string) {
  // A browser that cannot answer the question may send sound away.
  if (!recogniser.available) return "unavailable";
  const asked = { langs: [language], processLocally: true };
  return recogniser.available(asked).catch(() => "unavailable" as const);
}

/** Leans the recogniser towards the grammar's words, where the browser has a way to say so. */
function bias(recognition: PlatformRecognition, language: EarLanguage, scope: PlatformScope): void {
  const Phrase = scope.SpeechRecognitionPhrase;
  if (!Phrase || recognition.phrases === undefined) return;
  const words = new Set(language.utterance.arcs.flatMap(({ word }) => (word === null ? [] : [word])));
  recognition.phrases = [...words].sort().map((word) => new Phrase(word, BOOST));
}

function recogniserOf(scope: PlatformScope): PlatformRecognitionClass | undefined {
  return scope.SpeechRecognition ?? scope.webkitSpeechRecognition;
}

/** The platform gives no times of words: they are spread evenly over the time since the last result. */
function utteranceOf(result: PlatformResult, seconds: number): Utterance {
  const hypotheses: Hypothesis[] = [];
  for (let index = 0; index < result.length; index++) {
    const { transcript = "", confidence: given = 0 } = result[index] ?? {};
    const confidence = Math.max(0, Math.min(1, given));
    const words = transcript
      .trim()
      .split(/\s+/)
      .filter((word) => word !== "");
    if (words.length === 0) continue;
    const step = seconds / words.length;
    hypotheses.push({
      confidence,
      words: words.map((word, at) => ({ word, confidence, start: at * step, end: (at + 1) * step })),
    });
  }
  return {
    engine: "platform",
    hypotheses,
    rejected: hypotheses.length === 0,
    audioSeconds: seconds,
    computeSeconds: 0,
    sound: null,
  };
}

/** One sentence for what ends listening; null for what is only a silence. */
function problemOf({ error }: PlatformErrorEvent): string | null {
  switch (error) {
    case "no-speech":
    case "aborted":
      return null;
    case "not-allowed":
    case "service-not-allowed":
      return "The microphone is not allowed: allow it for this page in the browser's settings, or type.";
    case "audio-capture":
      return "The microphone was lost or not found: plug it in and start listening again, or type.";
    case "language-not-supported":
      return "This browser's recogniser does not know the language: use the offline ear, or type.";
    case "network":
      return "This browser's recogniser needs a network and has none: use the offline ear, or type.";
    case "phrases-not-supported":
      return "This browser's recogniser refused the list of words: use the offline ear, or type.";
    default:
      return `This browser's recogniser stopped (${error}): use the offline ear, or type.`;
  }
}
