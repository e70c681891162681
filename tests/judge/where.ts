import type { Sheet } from "../../src/visit/sheet.ts";
import { judged } from "../support/judged.ts";
import { PRESSURE_SHEET } from "../support/sheets.ts";
import { gas, type Said } from "../support/visits.ts";

/** "stage: advice" after the last utterance. */
export function where(script: Said[], chosen: Sheet | null = PRESSURE_SHEET): string {
  const { stage, advice } = judged(script, { sheet: chosen });
  const { action, ...rest } = advice;
  const details = Object.values(rest).map((value) => JSON.stringify(value).replaceAll('"', ""));
  return `${stage}: ${[action, ...details].join(" ")}`;
}

/** Gas pressure proved. */
export const pressures: Said = [0, gas(7, "static"), gas(6.5, "dynamic")];
