import type { Warning } from "../../judge/judgement.ts";
import { escaped } from "../../measure/quoted.ts";
import type { DueStand } from "../../record/office/follow-ups.ts";
import type { LogFound } from "../../record/office/log-found.ts";
import type { OfficeRow, Outcome } from "../../record/office/row.ts";

/** A visit's name in the office's lists. */
export function titleOf({ title, sheet }: Pick<OfficeRow, "title" | "sheet">): string {
  return title || sheet || "Visit without a sheet";
}

export const OUTCOME_WORDS: Readonly<Record<Outcome, string>> = {
  proved: "Proved in limits",
  "out-of-limits": "Out of limits",
  "not-proved": "Not proved",
  "not-judged": "Not judged",
};

export const DANGER_WORDS: Readonly<Record<Warning["code"], string>> = {
  "gas-smell": "smell of gas",
  "co-alarm": "CO alarm",
  "ambient-co-evacuate": "room CO: leave now",
  "ambient-co-high": "room CO high",
  "ambient-co-raised": "room CO raised",
  "flue-co-air-free-over-400": "flue CO over 400 ppm air-free",
  "flue-co-over-limit": "flue CO over its limit",
  "co-over-guidance": "flue CO over guidance",
  "rich-and-rising": "too rich, CO rising",
  "gas-pressure-out": "gas pressure out of limits",
  "o2-co2-disagree": "O2 and CO2 disagree",
  "wrong-firing": "wrong firing",
  "low-before-high": "low fire set before high fire",
  "gas-pressure-not-read": "gas pressure not read",
  "moved-wrong-way": "moved the wrong way",
  "no-response": "no response to a turn",
  "no-progress": "no progress",
  "wrong-screw": "wrong screw",
  "step-too-large": "step too large",
  "read-too-early": "read too early",
  "left-unproved": "left without proof",
  "left-open": "left open",
};

export const LOG_WORDS: Readonly<Record<LogFound["verdict"], string>> = {
  whole: "whole",
  "in-part": "signed in part",
  altered: "altered",
  unsigned: "unsigned",
  "not-examined": "not examined",
};

export const DUE_WORDS: Readonly<Record<DueStand, string>> = {
  overdue: "Overdue",
  today: "Due today",
  later: "Due later",
  undated: "Without a day",
};

/** "1 visit", "2,000 visits", "3 entries". */
export function counted(count: number, thing: string): string {
  const many = thing.endsWith("y") ? `${thing.slice(0, -1)}ies` : `${thing}s`;
  return `${count.toLocaleString("en-GB")} ${count === 1 ? thing : many}`;
}

/** Characters that could steer or hide in a file's name, as escapes; a very long name cut short. */
export function shownName(name: string): string {
  const most = 80;
  const safe = escaped(name);
  return safe.length > most ? `${safe.slice(0, most)}…` : safe;
}
