import { z } from "zod";
import { Talkativeness } from "../answer/talk.ts";
import { UnitSystem } from "../measure/firing.ts";
import { Instrument } from "../visit/details.ts";

/** For how many days the sound of an utterance may be kept. */
export const CLIP_DAYS = [7, 30, 90] as const;

/** As the device is set, a dark cellar, bright sun. */
export const THEMES = ["auto", "dark", "bright"] as const;

/** What the person chose once for this device. */
export const Settings = z.strictObject({
  /** Which recogniser listens. */
  ear: z.enum(["offline", "platform"]),
  /** Whether the platform's recogniser may send sound off the device; asked, never assumed. */
  platformMaySend: z.boolean(),
  units: UnitSystem,
  /** How much is said; settings that were stored before there was a choice lack it. */
  talk: Talkativeness.default("normal"),
  /** Whether the sound of what was logged is kept, on this device; older settings lack this and the next, too. */
  keepClips: z.boolean().default(true),
  clipDays: z.literal(CLIP_DAYS).default(30),
  /** Whether the app's voice is in a headset, where the microphone does not hear it; older settings lack it. */
  headset: z.boolean().default(false),
  /** Whether key words are listened for beside the recogniser; older settings lack it. */
  keyWords: z.boolean().default(true),
  /** What the screens are made for; older settings lack this and the next. */
  theme: z.enum(THEMES).default("auto"),
  /** Whether the first-run page was gone through. */
  welcomed: z.boolean().default(false),
  /** The name that a visit was last found right with; older settings lack it. */
  reviewer: z.string().default(""),
  /** The name that somebody in the office last marked a follow-up as done with; older settings lack it. */
  officeName: z.string().default(""),
  /** Who measures, and with what: a new visit's record starts with it; older settings lack all of it. */
  technician: z.string().default(""),
  licence: z.string().default(""),
  firm: z.string().default(""),
  instrument: Instrument.nullable().default(null),
  /** The id of the person whose own voice is listened for; older settings lack it. */
  speaker: z.string().nullable().default(null),
});
export type Settings = z.infer<typeof Settings>;

export const FIRST_SETTINGS: Settings = {
  ear: "offline",
  platformMaySend: false,
  units: "us",
  talk: "normal",
  keepClips: true,
  clipDays: 30,
  headset: false,
  keyWords: true,
  theme: "auto",
  welcomed: false,
  reviewer: "",
  officeName: "",
  technician: "",
  licence: "",
  firm: "",
  instrument: null,
  speaker: null,
};

/** Whether stored settings let sound be kept. Settings that cannot be read allow nothing. */
export function allowsClips(stored: unknown): boolean {
  if (stored === undefined) return FIRST_SETTINGS.keepClips;
  const read = Settings.safeParse(stored);
  return read.success && read.data.keepClips;
}
