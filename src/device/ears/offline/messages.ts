import type { EarLanguage } from "../../../meaning/network.ts";
import type { LearnedPhones } from "./adaptation.ts";
import type { Sounded } from "./recogniser.ts";

/** From the ear to its worker. */
export type ToWorker =
  /** `sound` brings Float32Array blocks of mono samples at 48 kHz, full scale 1, straight from the audio thread. */
  | {
      readonly kind: "start";
      readonly language: EarLanguage;
      readonly sound: MessagePort;
      /** Of the person who speaks; what was learned on another model is left aside. */
      readonly phones: LearnedPhones | null;
    }
  /** While the app's own voice sounds, utterances are marked as heard over it. */
  | { readonly kind: "voice"; readonly sounding: boolean };

/** From the worker to the ear. */
export type FromWorker =
  | { readonly kind: "loading"; readonly fraction: number }
  | { readonly kind: "ready" }
  | { readonly kind: "failed"; readonly reason: string }
  | Sounded;
