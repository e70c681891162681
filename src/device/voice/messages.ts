import type { Sound } from "./synthesise.ts";

/** To the voice's worker. */
export interface ToVoice {
  readonly kind: "synthesise";
  readonly id: number;
  readonly text: string;
}

/** From the voice's worker. */
export type FromVoice =
  | { readonly kind: "sound"; readonly id: number; readonly sound: Sound }
  | { readonly kind: "failed"; readonly id: number; readonly reason: string };
