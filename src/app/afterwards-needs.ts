import { NUMBER_WORD } from "../answer/said-twice.ts";
import type { Verdict } from "../judge/judgement.ts";
import { secondsBetween } from "../measure/instant.ts";
import { quantityOf } from "../measure/quantity.ts";
import type { Entry, Reading } from "../visit/entry.ts";
import type { LoggedItem, UnsureThing, VisitState } from "../visit/state.ts";
import { utterancesOf } from "../visit/utterances.ts";
import type { Visit } from "../visit/visit.ts";
import type { Pick } from "./afterwards-rivals.ts";
import { firingName } from "./wording.ts";

/** Why something needs a look, in the order in which the reasons are told. */
export const NEED_CODES = [
  "unsure",
  "number-passed-over",
  "doubtful",
  "rival",
  "mended-by-voice",
  "assumed-firing",
  "assumed-unit",
  "too-early",
  "out-of-limits",
] as const;

/** One reason for which a person has to look at a thing. */
export interface Need {
  readonly code: (typeof NEED_CODES)[number];
  readonly text: string;
}

/** Of what was logged, the ear was less sure than this of what needs a look. The parser asks below 0.85 already. */
const DOUBTFUL_BELOW = 0.92;

/** Another meaning that the ear held at least this likely is close. */
const CLOSE = 0.08;

/** Seconds after which a firing that nobody has said again may have changed unsaid. */
const LONG_AGO = 600;

/** What is known of a visit beside its entries. */
export interface Known {
  /** The verdicts, as judged then, by the id of the entry that brought the reading or mended it. */
  readonly verdicts: ReadonlyMap<string, Verdict>;
  /** What the ear heard less surely in place of an entry. */
  readonly rivals: (entry: Entry, together: readonly Entry[]) => readonly Pick[];
}

/**
 * What needs a look, by the id of the item or unsure entry. What was struck needs none, nor what a person has typed or
 * confirmed by hand since.
 */
export function needsOf(visit: Visit, state: VisitState, known: Known): ReadonlyMap<string, readonly Need[]> {
  const needs = new Map<string, Need[]>();
  const mends = mendsOf(visit);
  const items = new Map(state.items.map((item) => [item.id, item]));
  const unsure = new Map(state.unsure.map((thing) => [thing.id, thing]));
  const last = lastOfKinds(state);
  for (const together of utterancesOf(visit.entries)) {
    for (const entry of together) {
      const item = items.get(entry.id);
      const thing = unsure.get(entry.id);
      const found = item
        ? ofItem(item, entry, together, { ...known, mend: mends.get(entry.id) ?? null, last, state })
        : thing && ofUnsure(thing);
      if (found && found.length > 0) needs.set(entry.id, found);
    }
  }
  return needs;
}

function ofUnsure({ settled, unsure }: UnsureThing): Need[] {
  return settled ? [] : [{ code: "unsure", text: `Not understood: ${unsure.reason}.` }];
}

interface Around extends Known {
  /** The last entry that mended the item. */
  readonly mend: Entry | null;
  readonly last: ReadonlySet<string>;
  readonly state: VisitState;
}

function ofItem(
  item: LoggedItem,
  entry: Entry,
  together: readonly Entry[],
  { verdicts, rivals, mend, last, state }: Around,
): Need[] {
  if (item.struckBy !== null || (mend ?? entry).engine === "typed") return [];
  const needs: Need[] = [];
  const need = (code: Need["code"], text: string) => needs.push({ code, text });
  if (entry === together[0] && passedOverNumber(together))
    need("number-passed-over", "A number in what was said was passed over.");
  if (item.confidence < DOUBTFUL_BELOW) need("doubtful", "The ear was not quite sure.");
  const [rival] = mend ? [] : rivals(entry, together);
  if (rival && (rival.confidence ?? 0) >= CLOSE) need("rival", `It may have been ${rival.label}.`);
  if (mend) need("mended-by-voice", "It was mended by voice.");
  const { body } = item;
  if (body.kind !== "reading") return needs;
  if (isFiringOld(body, item, state))
    need(
      "assumed-firing",
      `${firingName(body.firing ?? "high")} was assumed, and had been said long before.`,
    );
  if (isUnitGuessed(body, item, state)) need("assumed-unit", "Its unit was never said in this visit.");
  const verdict = verdicts.get(mend?.id ?? entry.id)?.verdict;
  if (!last.has(item.id)) return needs;
  if (verdict === "wait") need("too-early", "It was read too early, and not again.");
  if (verdict === "fail") need("out-of-limits", "It is out of limits, and was left so.");
  return needs;
}

/** The entries that mended something, the last of each, by what they mended. */
export function mendsOf(visit: Visit): ReadonlyMap<string, Entry> {
  return new Map(
    visit.entries.flatMap((entry) => (entry.body.kind === "replace" ? [[entry.body.target, entry]] : [])),
  );
}

/** Ids of the readings after which the same was not read again. */
function lastOfKinds({ readings }: VisitState): ReadonlySet<string> {
  const last = new Map(
    readings.map(({ id, reading: { quantity, firing, condition } }) => [
      `${quantity} ${firing} ${condition}`,
      id,
    ]),
  );
  return new Set(last.values());
}

function isFiringOld({ firing, origin }: Reading, { at, seq }: LoggedItem, { items }: VisitState): boolean {
  if (firing === null || origin.firing !== "assumed") return false;
  const said = items.slice(0, placeOf(items, seq)).findLast(({ body }) => {
    if (body.kind === "firing") return true;
    return body.kind === "reading" && body.firing !== null && body.origin.firing === "said";
  });
  return said === undefined || secondsBetween(said.at, at) > LONG_AGO;
}

/** Whether a unit was taken from the settings. One that was said with an earlier reading of the kind is known. */
function isUnitGuessed({ quantity, origin }: Reading, { seq }: LoggedItem, { items }: VisitState): boolean {
  if (origin.unit !== "assumed" || quantityOf(quantity).units.length === 1) return false;
  const before = items.slice(0, placeOf(items, seq));
  return !before.some(
    ({ body }) => body.kind === "reading" && body.quantity === quantity && body.origin.unit === "said",
  );
}

function placeOf(items: readonly LoggedItem[], seq: number): number {
  const place = items.findIndex((item) => item.seq >= seq);
  return place < 0 ? items.length : place;
}

const NUMBER = new RegExp(`\\d|\\b(?:${NUMBER_WORD})\\b`, "i");

/** Whether a number was said that none of a phrase's entries came from. Of what came from the whole phrase nobody knows. */
function passedOverNumber(together: readonly Entry[]): boolean {
  const [{ phrase } = { phrase: "" }] = together;
  let rest = phrase;
  for (const { said } of together) {
    if (said === phrase) return false;
    rest = rest.replace(said, " ");
  }
  return NUMBER.test(rest.replace(/\bC?O ?2\b/gi, " "));
}
