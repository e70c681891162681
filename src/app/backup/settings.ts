import { Settings } from "../settings.ts";

/**
 * What a backup may change of a device's settings. Not what each device is asked for: the cautions, which recogniser listens and
 * whether sound may leave, whether sound is kept (a file must not delete it) and for how long, whether a headset is worn.
 */
const TAKEN = [
  "units",
  "talk",
  "theme",
  "reviewer",
  "officeName",
  "technician",
  "licence",
  "firm",
  "instrument",
] as const satisfies readonly (keyof Settings)[];

const TakenSettings = Settings.pick(
  Object.fromEntries(TAKEN.map((key) => [key, true])) as Record<(typeof TAKEN)[number], true>,
).partial();

/** The settings of a backup, as far as they are taken over; null where they are none that this program reads. */
export function backedUpSettings(stored: unknown): Partial<Settings> | null {
  if (typeof stored !== "object" || stored === null) return null;
  const known = TAKEN.flatMap((key) => {
    const value = Object.getOwnPropertyDescriptor(stored, key)?.value;
    return value === undefined ? [] : [[key, value] as const];
  });
  const read = TakenSettings.safeParse(Object.fromEntries(known));
  if (!read.success) return null;
  // What was not in the backup stays as it is here: a default is no choice.
  const given = new Set(known.map(([key]) => key as string));
  return Object.fromEntries(Object.entries(read.data).filter(([key]) => given.has(key)));
}
