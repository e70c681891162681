import { type Details, type Instrument, NO_DETAILS } from "../../visit/details.ts";
import type { Settings } from "../settings.ts";

/** What is typed in for a visit before it starts. */
export interface VisitNames {
  /** The visit's title. */
  readonly title: string;
  /** The appliance's serial or plant number. */
  readonly appliance: string;
  readonly place: string;
}

/** How long each of the details may be, UTF-16 units: as its schema has it. */
export const MOST = {
  appliance: 80,
  place: 120,
  technician: 80,
  licence: 80,
  firm: 80,
  name: 80,
  serial: 40,
} as const;

/** Who measures. */
export type Who = Pick<Details, "technician" | "licence" | "firm">;

/** The details that a visit starts with: what was typed in for it, and who measures with what; null where none of it is known. */
export function firstDetails(
  { appliance, place }: Pick<VisitNames, "appliance" | "place">,
  { technician, licence, firm, instrument }: Pick<Settings, keyof Who | "instrument">,
): Details | null {
  return filled({ appliance, place, technician, licence, firm, instrument });
}

/** Details as one line each, cut to what may be kept; null where nothing is given. */
export function filled(details: Details): Details | null {
  const tidy = tidied(details);
  return JSON.stringify(tidy) === JSON.stringify(NO_DETAILS) ? null : tidy;
}

/** What was typed as it is kept: without control characters and blank ends; an instrument that nothing is known of is none. */
export function tidied({ appliance, place, technician, licence, firm, instrument }: Details): Details {
  return {
    appliance: line(appliance, MOST.appliance),
    place: line(place, MOST.place),
    ...tidiedWho({ technician, licence, firm }),
    instrument: instrument && tidiedInstrument(instrument),
  };
}

export function tidiedWho({ technician, licence, firm }: Who): Who {
  return {
    technician: line(technician, MOST.technician),
    licence: line(licence, MOST.licence),
    firm: line(firm, MOST.firm),
  };
}

/** Null where nothing is known of it. */
export function tidiedInstrument({ name, serial, calibratedOn }: Instrument): Instrument | null {
  const tidy = { name: line(name, MOST.name), serial: line(serial, MOST.serial), calibratedOn };
  return tidy.name === "" && tidy.serial === "" && calibratedOn === null ? null : tidy;
}

function line(text: string, most: number): string {
  const plain = text.replace(/\p{Cc}+/gu, " ").trim();
  // Not through the middle of a sign.
  return plain
    .slice(0, most)
    .replace(/[\uD800-\uDBFF]$/, "")
    .trimEnd();
}
