import { AIR_O2_PERCENT, co2Max } from "../combustion/dilution.ts";
import { stageOf } from "../judge/procedure.ts";
import { situationOf } from "../judge/situation.ts";
import type { Context } from "../meaning/context.ts";
import { knownIn } from "../visit/known.ts";
import { missingIn } from "../visit/missing.ts";
import { openQuestion } from "../visit/questions.ts";
import type { VisitState } from "../visit/state.ts";

/** What the visit so far tells the parser about the next phrase. */
export function contextOf(state: VisitState): Context {
  const asked = openQuestion(state)?.unsure;
  return {
    firing: state.firing?.firing ?? null,
    question: asked ? missingIn(asked, state) : null,
    known: knownIn(state),
    gas: { co2Max: co2Max(state.head.fuel), o2InAir: AIR_O2_PERCENT },
    turn: turnIn(state),
    read: readIn(state),
    open: openIn(state),
  };
}

/** The turn that "another quarter" and "no, an eighth" are of: the one in question, else the last thing logged. */
function turnIn(state: VisitState): Context["turn"] {
  const open = openQuestion(state)?.unsure;
  const asked = open?.question ? undefined : open?.candidates[0];
  const last = open ? asked : state.items.findLast(({ struckBy }) => struckBy === null)?.body;
  if (last?.kind !== "adjustment" || last.adjuster === null) return null;
  return { adjuster: last.adjuster, turns: last.turns };
}

/** The firing of the last thing logged, where it was a reading. */
function readIn(state: VisitState): Context["read"] {
  if (openQuestion(state)) return null;
  const last = state.items.findLast(({ struckBy }) => struckBy === null)?.body;
  return last?.kind === "reading" ? last.firing : null;
}

/** What the advice at the last thing said was to confirm: the clock alone asks for nothing else. */
function openIn(state: VisitState): Context["open"] {
  const at = state.items.at(-1)?.at ?? state.head.startedAt;
  const { advice } = stageOf(situationOf(state, [], at)).ask;
  return advice.action === "close-up" ? advice.open : [];
}
