import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { instruction } from "../../src/answer/instruction.ts";
import { questionOf } from "../../src/answer/question.ts";
import { Talkativeness } from "../../src/answer/talk.ts";
import type { Turn } from "../../src/answer/turn.ts";
import { sentencesOf, wordCount } from "../../src/measure/text.ts";
import { Entry } from "../../src/visit/entry.ts";
import { foldVisit } from "../../src/visit/fold.ts";
import { anyScript } from "../support/arbitrary.ts";
import { PRESSURE_SHEET, sheet } from "../support/sheets.ts";
import { played } from "../support/talk.ts";

const anySheet = fc.constantFrom(null, sheet(), PRESSURE_SHEET);
const anyLevel = fc.constantFrom(...Talkativeness.options);

/** Plays random visits; `holds` looks at the turns in one level. */
const always = (holds: (turns: readonly Turn[], level: Talkativeness) => void) =>
  fc.assert(
    fc.property(anyScript, anySheet, anyLevel, (script, chosen, level) =>
      holds(played(script, { sheet: chosen }, level), level),
    ),
    { numRuns: 200 },
  );

const questionIn = ({ visit, entries }: Turn) => questionOf(foldVisit(visit), entries);
const hasCommand = ({ meaning }: Turn) => meaning.items.some(({ kind }) => kind === "command");
const bare = (text: string) => text.toLowerCase().replace(/\.$/, "");

describe("always, whatever is meant", () => {
  it("entries are sound, and whatever was logged is answered", () => {
    always((turns) => {
      for (const { entries, reply } of turns) {
        for (const entry of entries) expect(() => Entry.parse(entry)).not.toThrow();
        if (entries.length > 0) expect(reply.answer).not.toBe("");
      }
      expect(turns.at(-1)?.visit.entries ?? []).toEqual(turns.flatMap(({ entries }) => entries));
    });
  });

  it("in every level the judgement, the warnings and the question are the same", () => {
    fc.assert(
      fc.property(anyScript, anySheet, (script, chosen) => {
        const [normal = [], ...others] = (["normal", "short", "full"] as const).map((level) =>
          played(script, { sheet: chosen }, level),
        );
        for (const turns of others) {
          for (const [i, turn] of turns.entries()) {
            const usual = normal[i];
            expect(turn.reply.judgement).toEqual(usual?.reply.judgement);
            expect(turn.reply.answer === "").toBe(usual?.reply.answer === "");
            const asked = questionIn(turn);
            if (asked !== "") {
              expect(usual?.reply.answer.endsWith(asked)).toBe(true);
              expect(turn.reply.answer.endsWith(asked)).toBe(true);
            }
          }
        }
      }),
    );
  });

  it("warnings come first, whole, gravest first, and no sentence is said twice", () => {
    always((turns) => {
      for (const { reply } of turns) {
        const said = sentencesOf(reply.answer);
        expect(new Set(said).size).toBe(said.length);
        if (reply.answer === "") continue;
        const warned = [...new Set(reply.judgement.warnings.flatMap(({ text }) => sentencesOf(text)))];
        expect(said.slice(0, warned.length)).toEqual(warned);
      }
    });
  });

  it("what was logged under limits ends in the one next step, unless a warning said it or ten words are full", () => {
    always((turns, level) => {
      for (const turn of turns) {
        const { reply, entries, visit } = turn;
        const { judgement, answer } = reply;
        const logs = entries.some(({ body }) => body.kind !== "unsure");
        if (!logs || visit.head.sheet === null || judgement.stage === "finished") continue;
        if (hasCommand(turn) || questionIn(turn) !== "") continue;
        const state = foldVisit(visit);
        const steps = (["fewest", "plain", "reasoned"] as const).map((each) =>
          instruction(state, judgement, each),
        );
        const inWarning = judgement.warnings.some(({ text }) => bare(text).includes(bare(judgement.next)));
        const left = level === "normal" && wordCount(`${answer} ${steps[0]}`) > 10;
        expect(inWarning || left || steps.some((step) => answer.endsWith(step))).toBe(true);
      }
    });
  });

  it("ten words do in normal talk when all is well", () => {
    fc.assert(
      fc.property(anyScript, anySheet, (script, chosen) => {
        for (const turn of played(script, { sheet: chosen })) {
          const { reply, entries } = turn;
          const { verdicts, warnings, advice } = reply.judgement;
          // A command, a question, and a visit taken up again have their own answer beside it.
          const other = hasCommand(turn) || questionIn(turn) !== "" || reply.answer.startsWith("Visit open");
          const well = warnings.length === 0 && advice.action !== "turn" && advice.action !== "stop";
          const passed = verdicts.length === 1 && verdicts[0]?.verdict === "pass";
          if (other || !well || !passed || entries.length !== 1) continue;
          expect(wordCount(reply.answer)).toBeLessThanOrEqual(10);
        }
      }),
      { numRuns: 200 },
    );
  });
});
