import { visible } from "../../measure/harmless.ts";
import { quantityOf } from "../../measure/quantity.ts";
import { shownBody } from "../../record/shown-body.ts";
import { clockTime } from "../../record/wording.ts";
import type { Entry, EntryBody, ItemBody } from "../../visit/entry.ts";
import { foldVisit } from "../../visit/fold.ts";
import { isItemBody } from "../../visit/item-body.ts";
import type { LoggedItem } from "../../visit/state.ts";
import type { Visit } from "../../visit/visit.ts";

/** One line of the log as shown. */
export interface LogLine {
  readonly id: string;
  /** Time of day at the place of the visit. */
  readonly time: string;
  /** The words it came from, as heard. */
  readonly said: string;
  readonly understood: string;
  /** What was not said but carried over or filled in, by name. */
  readonly assumed: readonly string[];
  /** Taken back by a later entry; shown struck through, never removed. */
  readonly struck: boolean;
  /** Under which place in the visit the sound of its phrase is kept; null where it is not. */
  readonly clip: number | null;
}

/**
 * The log of a visit, oldest first: every entry, also the struck ones. Times in the visit's zone, else UTC. `clips` are
 * the places of the entries with kept sound; what one phrase gave shares the sound of its first entry.
 */
export function logLines(visit: Visit, clips: ReadonlySet<number>): LogLine[] {
  return visit.entries.map(logLiner(visit, clips));
}

/** Makes the line of one entry of a visit: of a long one only some are shown. */
export function logLiner(visit: Visit, clips: ReadonlySet<number>): (entry: Entry) => LogLine {
  const items = new Map(foldVisit(visit).items.map((item) => [item.id, item]));
  const byId = new Map(visit.entries.map((entry) => [entry.id, entry]));
  const places = clipPlaces(visit.entries, clips);
  return (entry) => ({
    id: entry.id,
    time: clockTime(entry.at, visit.head.zone),
    said: visible(entry.said || entry.phrase),
    understood: understood(entry, byId),
    assumed: assumed(entry),
    struck: struck(entry, items),
    clip: places.get(entry.id) ?? null,
  });
}

/** Under which place each entry's sound is kept, by its id. Entries of one phrase follow one another, at one time. */
function clipPlaces(entries: readonly Entry[], clips: ReadonlySet<number>): ReadonlyMap<string, number> {
  const places = new Map<string, number>();
  let first: Entry | null = null;
  for (const entry of entries) {
    if (first?.at !== entry.at || first.phrase !== entry.phrase) first = entry;
    if (clips.has(first.seq)) places.set(entry.id, first.seq);
  }
  return places;
}

/** Whether a later entry took this one back: struck, or mended by another value. */
function struck({ id, body }: Entry, items: ReadonlyMap<string, LoggedItem>): boolean {
  if (body.kind === "unsure") return false;
  const item = items.get(body.kind === "replace" ? body.target : id);
  if (!item) return false;
  return item.struckBy !== null || !isSame(item.body, body.kind === "replace" ? body.with : body);
}

function isSame(a: ItemBody, b: EntryBody): boolean {
  return a === b || JSON.stringify(a) === JSON.stringify(b);
}

function understood({ body }: Entry, byId: ReadonlyMap<string, Entry>): string {
  if (isItemBody(body)) return shownBody(body);
  switch (body.kind) {
    case "strike": {
      const target = byId.get(body.target);
      return target ? `Struck: ${understood(target, byId)}` : "Struck: an entry that is not here";
    }
    case "replace": {
      const isUnsure = byId.get(body.target)?.body.kind === "unsure";
      return `${isUnsure ? "It was" : "Mended to"} ${shownBody(body.with)}`;
    }
    case "unsure":
      return `Not logged: ${visible(body.unsure.reason)}`;
    case "answer":
      return body.accepted ? "Yes to the question" : "No to the question";
    case "reviewed":
      return `Looks right: ${visible(body.by)}`;
    case "details":
      return "Details of the record";
    case "tasks":
      return "What a note asks for";
  }
}

function assumed({ body }: Entry): string[] {
  switch (body.kind) {
    case "reading":
    case "adjustment":
      return assumedOf(body);
    case "replace":
      return assumedOf(body.with);
    case "firing":
    case "note":
    case "check":
    case "mark":
    case "strike":
    case "unsure":
    case "answer":
    case "reviewed":
    case "details":
    case "tasks":
      return [];
  }
}

/** Only what the reading has and the person had to say: a unit that goes without saying is no assumption. */
function assumedOf(body: ItemBody): string[] {
  if (body.kind === "adjustment") return body.origin.adjuster === "assumed" ? ["which screw"] : [];
  if (body.kind !== "reading") return [];
  const { origin } = body;
  return [
    ...(origin.value === "assumed" ? ["value"] : []),
    ...(origin.unit === "assumed" && quantityOf(body.quantity).units.length > 1 ? ["unit"] : []),
    ...(origin.firing === "assumed" && body.firing ? ["firing"] : []),
    ...(origin.condition === "assumed" && body.condition ? ["condition"] : []),
  ];
}
