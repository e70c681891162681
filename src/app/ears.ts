import type { Ear } from "../device/ears/ear.ts";

/** The recognisers that can be chosen; each is loaded only when it is asked for. */
export interface Ears {
  offline(): Promise<Ear>;
  /** `maySend`: whether the person agreed that sound leaves the device. */
  platform(maySend: boolean): Promise<Ear>;
  /** What the platform offers: nothing, a recogniser that stays on the device, or one that may send sound away. */
  platformOffer(): Promise<"none" | "on-device" | "may-send">;
}
