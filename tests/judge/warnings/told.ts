import { expect, it } from "vitest";
import type { Sheet } from "../../../src/visit/sheet.ts";
import { judged } from "../../support/judged.ts";
import { sheet } from "../../support/sheets.ts";
import { co, co2, high, type Said } from "../../support/visits.ts";

/** Codes of the warnings after the last utterance, and whether work has to stop. */
export function codes(script: readonly Said[], chosen: Sheet | null = sheet()): string[] {
  const { warnings, advice } = judged(script, { sheet: chosen });
  return [...warnings.map(({ code }) => code), ...(advice.action === "stop" ? ["stop"] : [])];
}

/** A case a line: its name, what was said, and the codes that are expected. */
export type Case = [name: string, script: Said[], expected: string[]];

export function test(cases: Case[], chosen?: Sheet): void {
  it.each(cases)("%s", (_name, script, expected) => expect(codes(script, chosen)).toEqual(expected));
}

/** High fire proved, so that nothing else is asked for. */
export const proved: Said = [0, high, co2(9.2), co(40)];
