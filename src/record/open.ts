import { CHECK_TO_DO, openChecks } from "../judge/closing.ts";
import { openWarnings, topicOf, type Warned } from "../judge/raised.ts";
import { type Situation, situationOf } from "../judge/situation.ts";
import { leftUnproved } from "../judge/warnings/left-open.ts";
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
}

type Whole = Omit<OpenPart, "count">;

/** Warnings first, then what was not understood, what was not proved and what was not closed. `now` is ISO 8601. */
export function stillOpen(state: VisitState, warned: Warned, now: string): OpenPart[] {
  const s: Situation = { ...situationOf(state, [], now), finishing: true };
  const unproved = leftUnproved(s)?.text ?? "";
  const last = new Map(openWarnings(warned, state, now).map((each) => [topicOf(each), each.text]));
  const parts: Whole[] = [
    { name: "Warnings not acknowledged", sentences: [...last.values()].map(shownText) },
    {
      name: "Not understood",
      sentences: state.unsure
        .filter(({ settled }) => settled === null)
        .map(({ said, unsure }) => harmless(`“${said}”: ${unsure.reason}.`)),
    },
    { name: "Not proved", sentences: unproved === "" ? [] : shownText(unproved).split(/(?<=\.) /) },
    {
      name: "Not closed",
      sentences: gasFirst(openChecks(s)).map((check) => `${capital(CHECK_TO_DO[check])}.`),
    },
  ];
  return parts.filter(({ sentences }) => sentences.length > 0).map(shortened);
}

/** What is not closed, the check for leaking gas before all else. */
function gasFirst(checks: readonly ClosingCheck[]): ClosingCheck[] {
  return [...checks].sort((a, b) => Number(b === "leak-check") - Number(a === "leak-check"));
}

/** So many of one kind are told: more than a visit has that went well enough; all of them are among what was said. */
const MOST = 60;

function shortened({ name, sentences }: Whole): OpenPart {
  const count = sentences.length;
  if (count <= MOST) return { name, sentences, count };
  return { name, sentences: [...sentences.slice(0, MOST - 1), `And ${count - MOST + 1} more.`], count };
}

/** What a reviewer has to know before he signs: "Not finished; 8 things are open."; "" where all is done. */
export function openInShort(finished: boolean, parts: readonly OpenPart[]): string {
  const count = parts.reduce((sum, part) => sum + part.count, 0);
  const open = count === 0 ? "" : count === 1 ? "one thing is open" : `${count} things are open`;
  if (finished) return open === "" ? "" : `Finished; ${open}.`;
  return open === "" ? "Not finished." : `Not finished; ${open}.`;
}
