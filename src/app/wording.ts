import type { Talkativeness } from "../answer/talk.ts";
import type { UnitSystem } from "../measure/firing.ts";
import type { Settings } from "./settings.ts";

export const UNIT_NAMES: Readonly<Record<UnitSystem, string>> = {
  us: "US (in. w.c., °F)",
  si: "SI (mbar, °C)",
};

export const THEME_NAMES: Readonly<Record<Settings["theme"], string>> = {
  auto: "As this device is set",
  dark: "Dark cellar",
  bright: "Bright sun",
};

export const TALK_NAMES: Readonly<Record<Talkativeness, string>> = {
  short: "Only numbers and the next step",
  normal: "A short sentence",
  full: "Everything, with limits and reasons",
};
