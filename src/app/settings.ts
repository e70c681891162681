import { z } from "zod";
import { Talkativeness } from "../answer/talk.ts";
import { UnitSystem } from "../measure/firing.ts";

/** What the person chose once for this device. */
export const Settings = z.strictObject({
  /** Which recogniser listens. */
  ear: z.enum(["offline", "platform"]),
  /** Whether the platform's recogniser may send sound off the device; asked, never assumed. */
  platformMaySend: z.boolean(),
  units: UnitSystem,
  /** How much is said; settings that were stored before there was a choice lack it. */
  talk: Talkativeness.default("normal"),
});
export type Settings = z.infer<typeof Settings>;

export const FIRST_SETTINGS: Settings = {
  ear: "offline",
  platformMaySend: false,
  units: "us",
  talk: "normal",
};
