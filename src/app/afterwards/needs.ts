import { NUMBER_WORD } from "../../answer/said-twice.ts";
import type { Verdict } from "../../judge/judgement.ts";
import { visible } from "../../measure/harmless.ts";
import { secondsBetween } from "../../measure/instant.ts";
import { type QuantityId, quantityOf } from "../../measure/quantity.ts";
import { firingName } from "../../record/wording.ts";
import type { Entry } from "../../visit/entry.ts";
import type { LoggedItem, UnsureThing, VisitState } from "../../visit/state.ts";
import { type Utterance, utterancesOf } from "../../visit/utterances.ts";
import type { Visit } from "../../visit/visit.ts";
import type { Pick } from "./rivals.ts";

/** Why something needs a look, in the order in which the reasons are told. */
const NEED_CODES = [
  "unsure",
  "number-passed-over",
  "doubtful",
  "rival",
  "mended-by-voice",
  "assumed-firing",
  "assumed-unit",
  "time-back",
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
 * What needs a look, by the id of the item or unsure entry. What was struck needs none. Of what a person has typed since the
 * ear is in no doubt; but a boiler that was left out of limits is told of until a person has confirmed just that.
 */
export function needsOf(visit: Visit, state: VisitState, known: Known): ReadonlyMap<string, readonly Need[]> {
  const needs = new Map<string, Need[]>();
  const mends = mendsOf(visit);
  const items = new Map(state.items.map((item) => [item.id, item]));
  const unsure = new Map(state.unsure.map((thing) => [thing.id, thing]));
  const last = lastOfKinds(state);
  const assumed = riskyAssumptions(state);
  const setBacks = new Set(state.setBacks.map(({ seq }) => seq));
  const confirmed = confirmedIn(visit);
  for (const together of utterancesOf(visit.entries)) {
    for (const entry of together) {
      const item = items.get(entry.id);
      const thing = unsure.get(entry.id);
      const found = item
        ? ofItem(item, entry, together, {
            ...known,
            mend: mends.get(entry.id) ?? null,
            last,
            assumed,
            setBacks,
            confirmed,
          })
        : thing && ofUnsure(thing);
      if (found && found.length > 0) needs.set(entry.id, found);
    }
  }
  return needs;
}

function ofUnsure({ settled, unsure }: UnsureThing): Need[] {
  return settled ? [] : [{ code: "unsure", text: `Not understood: ${visible(unsure.reason)}.` }];
}

interface Around extends Known {
  /** The last entry that mended the item. */
  readonly mend: Entry | null;
  /** Ids of the readings after which the same was not read again. */
  readonly last: ReadonlySet<string>;
  readonly assumed: Assumptions;
  /** Places of the entries before which the clock was set back. */
  readonly setBacks: ReadonlySet<number>;
  /** Ids of what a person found right as it stands. */
  readonly confirmed: ReadonlySet<string>;
}

function ofItem(item: LoggedItem, entry: Entry, together: Utterance, around: Around): Need[] {
  if (item.struckBy !== null) return [];
  // Of what was typed the ear is in no doubt.
  const isTyped = entry.engine === "typed" || around.mend?.engine === "typed";
  const doubts = isTyped ? [] : ofHearing(item, entry, together, around);
  return [
    ...doubts,
    ...(around.confirmed.has(item.id) ? [] : [...ofTime(entry, around), ...ofReading(item, entry, around)]),
  ];
}

/** What may have been heard or filled in wrongly. */
function ofHearing(
  { id, confidence, body }: LoggedItem,
  entry: Entry,
  together: Utterance,
  { rivals, mend, assumed }: Around,
): Need[] {
  const needs: Need[] = [];
  const need = (code: Need["code"], text: string) => needs.push({ code, text });
  if (entry === together[0] && passedOverNumber(together))
    need("number-passed-over", "A number in what was said was passed over.");
  if (confidence < DOUBTFUL_BELOW) need("doubtful", "The ear was not quite sure.");
  const [rival] = mend ? [] : rivals(entry, together);
  if (rival && (rival.confidence ?? 0) >= CLOSE) need("rival", `It may have been ${rival.label}.`);
  if (mend) need("mended-by-voice", "It was mended by voice.");
  if (body.kind !== "reading") return needs;
  if (assumed.firing.has(id))
    need(
      "assumed-firing",
      `${firingName(body.firing ?? "high")} was assumed, and had been said long before.`,
    );
  if (assumed.unit.has(id)) need("assumed-unit", "Its unit was never said in this visit.");
  return needs;
}

/** What its time says: waits before and after it may have been judged wrongly. */
function ofTime({ seq }: Entry, { setBacks }: Around): Need[] {
  return setBacks.has(seq)
    ? [{ code: "time-back", text: "It is earlier than what was logged before it: the clock was set back." }]
    : [];
}

/** What a reading that stands at the end says of the boiler, however it came in. */
function ofReading({ id, body }: LoggedItem, entry: Entry, { verdicts, mend, last }: Around): Need[] {
  if (body.kind !== "reading" || !last.has(id)) return [];
  const verdict = verdicts.get(mend?.id ?? entry.id)?.verdict;
  if (verdict === "wait") return [{ code: "too-early", text: "It was read too early, and not again." }];
  if (verdict === "fail") return [{ code: "out-of-limits", text: "It is out of limits, and was left so." }];
  return [];
}

/** The entries that mended something, the last of each, by what they mended. */
function mendsOf(visit: Visit): ReadonlyMap<string, Entry> {
  return new Map(
    visit.entries.flatMap((entry) => (entry.body.kind === "replace" ? [[entry.body.target, entry]] : [])),
  );
}

/** Ids of what was confirmed last: a correction by hand, of no phrase, to what stood there before. */
function confirmedIn(visit: Visit): ReadonlySet<string> {
  const stood = new Map<string, string>();
  const confirmed = new Set<string>();
  for (const { id, phrase, body } of visit.entries) {
    if (body.kind === "replace") {
      const now = JSON.stringify(body.with);
      if (phrase === "" && stood.get(body.target) === now) confirmed.add(body.target);
      else confirmed.delete(body.target);
      stood.set(body.target, now);
    } else if (body.kind === "strike") {
      // Put back is not yet found right.
      stood.delete(body.target);
    } else {
      stood.set(id, JSON.stringify(body));
    }
  }
  return confirmed;
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

/** Ids of the readings whose firing or unit was assumed from little. */
interface Assumptions {
  readonly firing: ReadonlySet<string>;
  readonly unit: ReadonlySet<string>;
}

/** A firing that was said long before, or never; a unit from the settings that was said with no earlier reading of the kind. */
function riskyAssumptions({ items }: VisitState): Assumptions {
  const firing = new Set<string>();
  const unit = new Set<string>();
  const unitSaid = new Set<QuantityId>();
  let firingSaid: string | null = null;
  for (const { id, at, body } of items) {
    if (body.kind === "firing") firingSaid = at;
    if (body.kind !== "reading") continue;
    const { quantity, origin } = body;
    if (origin.firing === "said" && body.firing !== null) firingSaid = at;
    const isOld = firingSaid === null || secondsBetween(firingSaid, at) > LONG_AGO;
    if (origin.firing === "assumed" && body.firing !== null && isOld) firing.add(id);
    if (quantityOf(quantity).units.length === 1) continue;
    if (origin.unit === "said") unitSaid.add(quantity);
    else if (!unitSaid.has(quantity)) unit.add(id);
  }
  return { firing, unit };
}

const NUMBER = new RegExp(`\\d|\\b(?:${NUMBER_WORD})\\b`, "i");

const passedOver = new WeakMap<Entry, boolean>();

/** Whether a number was said that none of a phrase's entries came from. Of what came from the whole phrase nobody knows. */
function passedOverNumber(together: Utterance): boolean {
  const [first] = together;
  const found = passedOver.get(first) ?? isNumberLeft(together);
  passedOver.set(first, found);
  return found;
}

function isNumberLeft(together: Utterance): boolean {
  const [{ phrase }] = together;
  let rest = phrase;
  for (const { said } of together) {
    if (said === phrase) return false;
    rest = rest.replace(said, " ");
  }
  return NUMBER.test(rest.replace(/\bC?O ?2\b/gi, " "));
}
