import { CHECK_TO_DO, openChecks } from "../judge/closing.ts";
import type { Warning } from "../judge/judgement.ts";
import { openWarnings, topicOf, type Warned } from "../judge/raised.ts";
import { type Situation, situationOf } from "../judge/situation.ts";
import { leftUnproved } from "../judge/warnings/left-open.ts";
import { dangersOf } from "../judge/warnings/list.ts";
import type { Danger } from "../judge/warnings/rule.ts";
import { capital } from "../measure/capital.ts";
import type { ClosingCheck } from "../measure/firing.ts";
import { harmless } from "../measure/harmless.ts";
import { shownText } from "../measure/text.ts";
import type { VisitState } from "../visit/state.ts";

/** What is still open in a visit: a heading and its sentences, nothing where all is closed. */
export interface OpenPart {
  readonly name: string;
  /** The first of them; `count` says of how many. */
  readonly sentences: readonly string[];
  readonly count: number;
  /** Whether they are things to put right, or warnings to take note of only. */
  readonly kind: "thing" | "warning";
}

type Whole = Omit<OpenPart, "count">;

/** What these warn of stands among what is not proved or not closed. */
const LISTED: ReadonlySet<Warning["code"]> = new Set<Warning["code"]>(["left-unproved", "left-open"]);

/** Dangers and warnings first, then what was not understood, what was not proved and what was not closed. `now` is ISO 8601. */
export function stillOpen(state: VisitState, warned: Warned, now: string): OpenPart[] {
  const s = atEnd(state, now);
  const standing = standingIn(s);
  const topics = new Set(standing.map(topicOf));
  const others = openWarnings(warned, state, now).filter(
    (each) => !topics.has(topicOf(each)) && !LISTED.has(each.code),
  );
  const parts: Whole[] = [
    { kind: "thing", name: "Dangers that stand", sentences: lastOfEach(standing) },
    { kind: "warning", name: "Warnings not acknowledged", sentences: lastOfEach(others) },
    {
      kind: "thing",
      name: "Not understood",
      sentences: state.unsure
        .filter(({ settled }) => settled === null)
        .map(({ said, unsure }) => harmless(`“${said}”: ${unsure.reason}.`)),
    },
    { kind: "thing", name: "Not proved", sentences: notProved(s, standing).map(shownText) },
    {
      kind: "thing",
      name: "Not closed",
      sentences: gasFirst(openChecks(s)).map((check) => `${capital(CHECK_TO_DO[check])}.`),
    },
  ];
  return parts.filter(({ sentences }) => sentences.length > 0).map(shortened);
}

/** How many things are open in a visit at its end (`atEnd`), each once: the number that `openInShort` says. `standing` are its dangers. */
export function openCount(s: Situation, standing: readonly Danger[] = standingIn(s)): number {
  const unsettled = s.state.unsure.filter(({ settled }) => settled === null).length;
  const dangers = new Set(standing.map(topicOf)).size;
  return dangers + unsettled + notProved(s, standing).length + openChecks(s).length;
}

/** As if the work ended here, at `now` (ISO 8601): what is not proved or not closed counts. */
export function atEnd(state: VisitState, now: string): Situation {
  return { ...situationOf(state, [], now), finishing: true };
}

/** The dangers that stand: nobody has to have taken note of them. */
export function standingIn(s: Situation): Danger[] {
  return dangersOf(s).filter(({ stop, stands }) => stop || stands);
}

/** The sentences of what was not proved; not what a danger that stands says already. */
function notProved(s: Situation, standing: readonly Danger[]): string[] {
  const text = leftUnproved(s)?.text ?? "";
  const isTold = standing.some(({ code }) => code === "gas-pressure-out");
  return text
    .split(/(?<=\.) /)
    .filter((sentence) => sentence !== "" && !(isTold && /^gas pressure is out/i.test(sentence)));
}

/** The last text of each topic. */
function lastOfEach(warnings: readonly Warning[]): string[] {
  return [...new Map(warnings.map((each) => [topicOf(each), shownText(each.text)])).values()];
}

/** What is not closed, the check for leaking gas before all else. */
function gasFirst(checks: readonly ClosingCheck[]): ClosingCheck[] {
  return [...checks].sort((a, b) => Number(b === "leak-check") - Number(a === "leak-check"));
}

/** So many of one kind are told: more than a visit has that went well enough; all of them are among what was said. */
const MOST = 60;

function shortened({ kind, name, sentences }: Whole): OpenPart {
  const count = sentences.length;
  if (count <= MOST) return { kind, name, sentences, count };
  return { kind, name, sentences: [...sentences.slice(0, MOST - 1), `And ${count - MOST + 1} more.`], count };
}

/** What a reviewer has to know before he signs: "Not finished; 8 things are open, one warning is not acknowledged."; "" where all is done. */
export function openInShort(finished: boolean, parts: readonly OpenPart[]): string {
  const of = (wanted: OpenPart["kind"]) =>
    parts.reduce((sum, { kind, count }) => sum + (kind === wanted ? count : 0), 0);
  const open = [
    amount(of("thing"), "one thing is open", "things are open"),
    amount(of("warning"), "one warning is not acknowledged", "warnings are not acknowledged"),
  ].filter((each) => each !== "");
  if (finished) return open.length === 0 ? "" : `Finished; ${open.join(", ")}.`;
  return open.length === 0 ? "Not finished." : `Not finished; ${open.join(", ")}.`;
}

function amount(count: number, one: string, many: string): string {
  return count === 0 ? "" : count === 1 ? one : `${count} ${many}`;
}
