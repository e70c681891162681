import type { Verdict } from "../../judge/judgement.ts";
import type { Engine } from "../../meaning/heard.ts";
import { visible } from "../../measure/harmless.ts";
import { quantityOf } from "../../measure/quantity.ts";
import { shownNumber } from "../../measure/show.ts";
import { shownUnit } from "../../measure/unit.ts";
import { shownBody } from "../../record/shown-body.ts";
import { CHECK_NAMES, clockTime, dayTime, firingName, screwName, shownTurns } from "../../record/wording.ts";
import type { Entry, ItemBody, Origin } from "../../visit/entry.ts";
import { isItemBody } from "../../visit/item-body.ts";
import type { LoggedItem, UnsureThing, VisitState } from "../../visit/state.ts";
import { type Utterance, utterancesOf } from "../../visit/utterances.ts";
import type { Visit } from "../../visit/visit.ts";
import type { Known, Need } from "./needs.ts";
import { candidatesOf, isSame, type Pick } from "./rivals.ts";

/** One field of what was understood, and whether it was said or assumed. */
export interface Field {
  readonly name: string;
  readonly value: string;
  readonly origin: Origin;
  /** What it was before it was mended. */
  readonly isOld?: boolean;
}

/** What became of a thing since. */
export type Fate =
  | { readonly kind: "stands" }
  | { readonly kind: "struck" }
  /** Mended, to what it is now. */
  | { readonly kind: "mended"; readonly now: string }
  /** Not understood, and still open; or settled, and how. */
  | { readonly kind: "open" }
  | { readonly kind: "settled"; readonly how: string };

/** One thing of an utterance: what was understood then, and what became of it. */
export interface ReviewThing {
  /** Id of its entry. */
  readonly id: string;
  /** As it was understood then: "CO2 9.2 %, high fire". */
  readonly understood: string;
  readonly fields: readonly Field[];
  readonly fate: Fate;
  /** As judged then. */
  readonly verdict: Verdict | null;
  /** 0 to 1. */
  readonly confidence: number;
  readonly needs: readonly Need[];
  /** What it may have been instead. */
  readonly picks: readonly Pick[];
  /** Whether it can be struck, mended or confirmed: a correction cannot, only what it corrected. */
  readonly own: boolean;
}

const known = new WeakMap<readonly Entry[], readonly Utterance[]>();

/** The utterances of a visit, oldest first. */
export function utterances({ entries }: Visit): readonly Utterance[] {
  const found = known.get(entries) ?? utterancesOf(entries);
  known.set(entries, found);
  return found;
}

/** What the things of an utterance are shown with. */
export interface Shown extends Known {
  readonly visit: Visit;
  readonly state: VisitState;
  readonly needs: ReadonlyMap<string, readonly Need[]>;
  readonly item: (id: string) => LoggedItem | undefined;
  readonly entry: (id: string) => Entry | undefined;
}

/** The same, looked up once for all rows. */
export function shownOf(
  visit: Visit,
  state: VisitState,
  needs: ReadonlyMap<string, readonly Need[]>,
  { verdicts, rivals }: Known,
): Shown {
  const items = new Map(state.items.map((item) => [item.id, item]));
  const entries = new Map(visit.entries.map((entry) => [entry.id, entry]));
  return {
    visit,
    state,
    needs,
    verdicts,
    rivals,
    item: (id) => items.get(id),
    entry: (id) => entries.get(id),
  };
}

/** The things of one utterance, in spoken order. */
export function thingsOf(together: Utterance, shown: Shown): ReviewThing[] {
  return together.map((entry) => thingOf(entry, together, shown));
}

function thingOf(entry: Entry, together: Utterance, shown: Shown): ReviewThing {
  const { id, body, confidence } = entry;
  const { verdicts, needs, state, visit } = shown;
  const rest = { id, confidence, needs: needs.get(id) ?? [], verdict: verdicts.get(id) ?? null };
  const bare = { ...rest, fields: [], picks: [], own: false, fate: { kind: "stands" } } as const;
  if (isItemBody(body)) {
    return {
      ...rest,
      understood: shownBody(body),
      fields: fieldsNow(body, shown.item(id)),
      fate: fateOf(body, shown.item(id)),
      picks: others(shown.rivals(entry, together), shown.item(id)),
      own: true,
    };
  }
  switch (body.kind) {
    case "unsure": {
      const thing = state.unsure.find((one) => one.id === id);
      const item = shown.item(id);
      const fate = item ? fateOf(null, item) : settledAs(thing);
      const picks = others(candidatesOf(body.unsure.candidates), item);
      return { ...rest, understood: `Not logged: ${body.unsure.reason}`, fields: [], fate, picks, own: true };
    }
    case "strike":
      return { ...bare, understood: `Struck: ${wordsOf(body.target, shown)}` };
    case "replace": {
      const before = shown.entry(body.target);
      const what = `${before?.body.kind === "unsure" ? "It was" : "Mended"}: ${shownBody(body.with)}`;
      const of = before ? `, of ${clockTime(before.at, visit.head.zone)}` : "";
      return { ...bare, understood: what + of, fields: fieldsOf(body.with) };
    }
    case "answer":
      return { ...bare, understood: body.accepted ? "Yes to the question" : "No to the question" };
    case "reviewed":
      return { ...bare, understood: `Looks right: ${body.by}, ${dayTime(entry.at, visit.head.zone)}` };
    case "details":
      return { ...bare, understood: "Details of the record" };
    case "tasks":
      return { ...bare, understood: `What it asks for: ${wordsOf(body.target, shown)}` };
  }
}

/** What a thing may have been and is not now. */
function others(picks: readonly Pick[], item: LoggedItem | undefined): readonly Pick[] {
  return item ? picks.filter((pick) => !isSame(pick.item, item.body)) : picks;
}

function wordsOf(id: string, { entry, item }: Shown): string {
  const now = item(id);
  if (now) return shownBody(now.body);
  return `“${visible(entry(id)?.said ?? "")}”`;
}

function fateOf(body: ItemBody | null, item: LoggedItem | undefined): Fate {
  if (!item) return { kind: "stands" };
  if (item.struckBy !== null) return { kind: "struck" };
  const now = shownBody(item.body);
  return body && shownBody(body) === now ? { kind: "stands" } : { kind: "mended", now };
}

const SETTLED = {
  accepted: "yes was said to it",
  dropped: "left out",
  "said-again": "said again after it",
  told: "told by hand",
} as const;

function settledAs(thing: UnsureThing | undefined): Fate {
  return thing?.settled ? { kind: "settled", how: SETTLED[thing.settled.how] } : { kind: "open" };
}

/** The fields of what stands; before each that was mended, what it was. */
function fieldsNow(body: ItemBody, item: LoggedItem | undefined): Field[] {
  const then = fieldsOf(body);
  if (!item || item.struckBy !== null) return then;
  const now = fieldsOf(item.body);
  const isIn = (fields: readonly Field[], { name, value }: Field) =>
    fields.some((field) => field.name === name && field.value === value);
  const gone = then.filter((field) => !isIn(now, field)).map((field): Field => ({ ...field, isOld: true }));
  const kept = now.flatMap((field) => [...gone.filter(({ name }) => name === field.name), field]);
  return [...gone.filter(({ name }) => !now.some((field) => field.name === name)), ...kept];
}

/** Field by field what was understood, with where it came from. What goes without saying is said with the name. */
export function fieldsOf(body: ItemBody): Field[] {
  const said = (name: string, value: string): Field => ({ name, value, origin: "said" });
  switch (body.kind) {
    case "reading": {
      const { quantity, value, unit, firing, condition, dial, origin } = body;
      const { name, units } = quantityOf(quantity);
      return [
        said("Quantity", name),
        { name: "Value", value: shownNumber(value), origin: origin.value },
        ...(units.length > 1 ? [{ name: "Unit", value: shownUnit(unit), origin: origin.unit }] : []),
        ...(condition ? [{ name: "Burner", value: condition, origin: origin.condition }] : []),
        ...(firing ? [{ name: "Firing", value: firingName(firing), origin: origin.firing }] : []),
        ...(dial ? [said("Dial", `${shownNumber(dial.value)} ${dial.unit === "m3" ? "m³" : "ft³"}`)] : []),
      ];
    }
    case "firing":
      return [said("Firing", firingName(body.firing))];
    case "adjustment":
      return [
        { name: "Screw", value: screwName(body.adjuster), origin: body.origin.adjuster },
        said("Turned", shownTurns(body.turns)),
      ];
    case "check":
      return [said(CHECK_NAMES[body.item], body.done ? "done" : "not done")];
    case "note":
    case "mark":
      return [];
  }
}

export const ENGINE_NAMES: Readonly<Record<Engine, string>> = {
  typed: "typed",
  platform: "heard by the platform's recogniser",
  offline: "heard by the recogniser on this device",
  "key-words": "heard as key words on this device",
};

/** How sure, in words and as a share: "quite sure, 93 %". Of what was typed nothing is said. */
export function sureness(engine: Engine, confidence: number): string | null {
  if (engine === "typed") return null;
  const word =
    confidence >= 0.97
      ? "sure"
      : confidence >= 0.92
        ? "quite sure"
        : confidence >= 0.85
          ? "less sure"
          : "unsure";
  return `${word}, ${Math.floor(confidence * 100)} %`;
}
