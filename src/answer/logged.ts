import type { Judgement, Verdict } from "../judge/judgement.ts";
import { spokenTurns } from "../judge/turns.ts";
import { spokenNumber, spokenUnitOf } from "../measure/show.ts";
import { sentence } from "../measure/text.ts";
import type { Entry, Reading } from "../visit/entry.ts";
import type { ItemBody, StandingReading, VisitState } from "../visit/state.ts";
import { lowHangsOnHigh, noLimits } from "./no-limits.ts";
import { noteDanger } from "./note-danger.ts";
import { spokenBody, spokenDial } from "./things.ts";
import { verdictWords, type WithLimits } from "./verdict-words.ts";

/** How much of what was logged is read back. */
export interface Detail {
  /** Firing and screw named, or only what cannot be guessed from the place in the work. */
  readonly places: boolean;
  /** Readings with their names, or the bare numbers and what was assumed with them. */
  readonly names: boolean;
  readonly limits: WithLimits;
}

/** What an utterance logged, in sentences, in spoken order. */
export interface ReadBack {
  readonly others: readonly string[];
  /** Each reading with its verdict. */
  readonly readings: readonly string[];
}

/** The read-back of what an utterance logged. */
export function readBack(
  state: VisitState,
  since: readonly Entry[],
  judgement: Judgement,
  detail: Detail,
): ReadBack {
  const judged = noLimits(state.head) === "" ? judgement.verdicts : [];
  const values = freshReadings(state, since).map((r) => spokenValue(r, since, detail));
  const others = since.map((entry) => spokenOther(state, entry, since, judgement, detail, values.length > 0));
  const readings = withVerdicts(values, judged, detail.limits, lowHangsOnHigh(state.head));
  return {
    others: counted(others.filter((text) => text !== "")).map(sentence),
    readings: counted(readings).map(sentence),
  };
}

/** What was logged several times in one breath is said once, with how often. */
function counted(texts: readonly string[]): string[] {
  return [...new Set(texts)].map((text) => {
    const times = texts.filter((each) => each === text).length;
    return times === 1 ? text : `${text}, ${times === 2 ? "twice" : `${spokenNumber(times)} times`}`;
  });
}

/** Standing readings that the entries brought or mended, in the order of `judge`'s verdicts. */
export function freshReadings(state: VisitState, since: readonly Entry[]): StandingReading[] {
  const ids = new Set(
    since.map(({ id, body }) => (body.kind === "replace" ? body.target : body.kind === "reading" ? id : "")),
  );
  return state.readings.filter((r) => ids.has(r.id));
}

/** Values with their verdicts: one word for all where the verdicts agree, else one for each. */
export function withVerdicts(
  values: readonly string[],
  verdicts: readonly Verdict[],
  withLimits: WithLimits,
  hangs: boolean,
): string[] {
  if (values.length === 0) return [];
  const words = verdicts.map((verdict) => verdictWords(verdict, withLimits, hangs));
  const [first = ""] = words;
  if (words.every((word) => word === first)) return [joined(values.join(", "), first)];
  return values.map((value, i) => joined(value, words[i] ?? ""));
}

function joined(value: string, word: string): string {
  return word === "" ? value : `${value}, ${word}`;
}

function spokenValue(r: StandingReading, since: readonly Entry[], detail: Detail): string {
  // What an unsure thing was after all mends nothing.
  const mended =
    r.history.length > 0 && since.some(({ body }) => body.kind === "replace" && body.target === r.id);
  const { firing, value } = r.reading;
  const old = mended ? r.history.at(-1) : undefined;
  const place = (old && old.firing !== firing) || detail.limits === "all";
  // A mend without a number says what else is new.
  const named = detail.names || old?.value === value;
  const text = named
    ? `${place && firing !== null ? `${firing} fire ` : ""}${spokenBody(r.reading)}`
    : spokenBare(r.reading);
  return mended ? `now ${text}` : text;
}

/** Without its name, but with the unit and condition where they were assumed: they may be wrong. */
function spokenBare({ value, unit, condition, dial, origin }: Reading): string {
  const words = [
    origin.condition === "assumed" && condition !== null ? condition : "",
    spokenNumber(value),
    origin.unit === "assumed" ? spokenUnitOf(value, unit) : "",
    dial ? spokenDial(dial) : "",
  ];
  return words.filter((word) => word !== "").join(" ");
}

/** The firing of a struck reading, said aloud since it still holds. */
function struckPlace(body: ItemBody): string {
  return body.kind === "reading" && body.firing !== null ? `${body.firing} fire ` : "";
}

/** Everything but readings; "" where there is nothing to say. */
function spokenOther(
  state: VisitState,
  { body }: Entry,
  since: readonly Entry[],
  judgement: Judgement,
  detail: Detail,
  withValues: boolean,
): string {
  switch (body.kind) {
    case "reading":
    case "unsure":
      return "";
    case "replace":
      return body.with.kind === "reading" ? "" : `now ${spokenBody(body.with)}`;
    case "firing":
      return detail.places || !withValues ? spokenBody(body) : "";
    case "adjustment":
      // Where the screw is the one of this firing, the distance alone will do.
      return detail.places || state.firing?.firing !== body.adjuster
        ? spokenBody(body)
        : spokenTurns(body.turns);
    case "note":
      return joined(spokenBody(body), noteDanger(body.text));
    case "check":
      return spokenBody(body);
    case "mark":
      return itemSaid(body, judgement);
    case "strike": {
      const target = state.items.find(({ id }) => id === body.target);
      return target ? `struck ${struckPlace(target.body)}${spokenBody(target.body)}` : "";
    }
    case "answer":
      // What was said or asked instead says it as well.
      return body.accepted || since.some((other) => other.body.kind !== "answer") ? "" : "dropped";
    case "reviewed":
      return "looks right, kept";
    case "details":
    case "tasks":
      return "kept";
  }
}

/** A logged thing as it is read back; a visit declared finished with something open says so. */
export function itemSaid(body: ItemBody, judgement: Judgement): string {
  const open = body.kind === "mark" && body.mark === "finished" && isOpen(judgement);
  return open ? "finished with open points" : spokenBody(body);
}

/** Whether a visit that is declared finished is not. */
export function isOpen({ stage, advice, warnings }: Judgement): boolean {
  return stage !== "finished" || advice.action === "stop" || warnings.length > 0;
}
