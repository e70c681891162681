import { capital } from "../../measure/capital.ts";
import { shortText } from "../../measure/harmless.ts";
import { foldVisit } from "../../visit/fold.ts";
import type { Visit } from "../../visit/visit.ts";
import { dayTime } from "../wording.ts";
import type { Examined, Finding, Misfit, Signed } from "./finding.ts";
import { fingerprint } from "./fingerprint.ts";

/** What is said of a log: one word, and what it stands on. */
export interface LogWords {
  readonly verdict: "whole" | "signed in part" | "altered" | "unsigned" | "not examined";
  /** Whole sentences, the gravest first; at most about twenty. */
  readonly sentences: readonly string[];
}

/** Said wherever a record says "whole" or "unsigned": for whom it is written, that is easily taken for more than it is. */
export const WHAT_IT_PROVES =
  "Whole: not changed since a device signed it with the key named. It proves neither who held the device, nor that its clock was right, nor that what was logged is true. Compare the key with the one that the device's settings show.";

/** Said where a record says "altered": for whom it is written, what to do about it. */
export const WHAT_ALTERED_MEANS =
  "Altered: something in it was changed after it was logged, by accident or on purpose; by whom cannot be told. Ask whoever handed it over for the file as it was exported.";

/** So many places that do not fit, and so many keys, are told. */
const MOST_PLACES = 12;
const MOST_KEYS = 4;
const SAID_LETTERS = 40;

/** A finding in words; places and entries as people count them, from 1. */
export function logWords(visit: Visit, { finding, trouble }: Examined): LogWords {
  if (finding === null)
    return { verdict: "not examined", sentences: [`Its log could not be examined: ${trouble}.`] };
  const unsigned = trouble === null ? [] : [`It could not be signed: ${trouble}.`];
  const verdict = finding.kind === "in-part" ? "signed in part" : finding.kind;
  return { verdict, sentences: [...sentencesOf(visit, finding), ...unsigned] };
}

/** The same as one line: "Its log is altered: entry 4 is not …". */
export function logLine({ verdict, sentences }: LogWords): string {
  const [first = "", ...more] = sentences;
  const begin = verdict === "not examined" ? first : `Its log is ${verdict}: ${lowered(first)}`;
  return [begin, ...more].join(" ");
}

/** Where in the bundle a misfit is. */
export function misfitPath(misfit: Misfit): string {
  switch (misfit.kind) {
    case "head":
      return "head";
    case "entry":
      return `entries[${misfit.seq}]`;
    case "length":
      return "integrity.links";
    case "between":
    case "cut":
      return "entries";
    case "signature":
      return `integrity.signatures[${misfit.number}]`;
  }
}

/** One misfit in one sentence. */
export function misfitWords(visit: Visit, misfit: Misfit): string {
  switch (misfit.kind) {
    case "head":
      return "What the visit began with (its title, time, gas, units or limits sheet) is not as it was logged.";
    case "entry":
      return `${capital(entryName(visit, misfit.seq))} is not as it was logged.`;
    case "length": {
      const { links, entries } = misfit;
      // A file may hold no link at all, not even that of the head.
      const linked = Math.max(0, links);
      return `${capital(counted(entries))} ${isAre(entries)} here, but ${linked === 0 ? "none" : linked} ${linked < 2 ? "was" : "were"} linked: ${entries < linked ? "some were taken away" : "some were put in, or their links taken away"}.`;
    }
    case "between": {
      const { from, to, signed } = misfit;
      const where = from + 1 >= to ? entryName(visit, to - 1) : `entries ${from + 1} to ${to}`;
      const head = from === 0 ? ", or in what the visit began with," : "";
      return `Something in ${to === 0 ? "what the visit began with" : `${where}${head}`} was changed after it was signed ${by(visit, signed)}, and its check sums made anew.`;
    }
    case "cut": {
      const { entries, signed } = misfit;
      return `The end is missing: ${counted(signed.entries)} ${signed.entries === 1 ? "was" : "were"} signed ${by(visit, signed)}, and ${entries === 0 ? "none" : entries} ${isAre(entries)} here.`;
    }
    case "signature": {
      const name = `Signature ${misfit.number + 1}`;
      switch (misfit.why) {
        case "not-valid":
          return `${name} is not valid: it was not made with the key that it names, or was changed.`;
        case "no-statement":
          return `${name} is of something else than a visit's log.`;
        case "other-visit":
          return `${name} is of another visit.`;
      }
    }
  }
}

function sentencesOf(visit: Visit, finding: Finding): string[] {
  switch (finding.kind) {
    case "whole":
    case "in-part":
      return signedSentences(visit, finding);
    case "altered":
      return alteredSentences(visit, finding.misfits);
    case "unsigned":
      return unsignedSentences(visit, finding.linked);
  }
}

type SignedLog = Extract<Finding, { signed: unknown }>;

function signedSentences(visit: Visit, { signed, signedEntries, entries, takenIn }: SignedLog): string[] {
  // Of each key the signature that reaches furthest; the one that covers most first.
  const furthest = new Map<string, Signed>();
  for (const one of signed) {
    const before = furthest.get(one.key);
    if (!before || one.entries >= before.entries) furthest.set(one.key, one);
  }
  const keys = [...furthest.values()].sort((a, b) => b.entries - a.entries);
  const upTo = (end: number) =>
    end === 0
      ? "Signed before its first entry"
      : end === entries
        ? `Signed up to its last entry, entry ${end},`
        : `Signed up to entry ${end} of ${entries}`;
  const sentences = keys.slice(0, MOST_KEYS).map((one) => `${upTo(one.entries)} ${by(visit, one)}.`);
  if (keys.length > MOST_KEYS) sentences.push(`And with ${keys.length - MOST_KEYS} more keys.`);
  const after = entries - signedEntries;
  if (after > 0)
    sentences.splice(
      1,
      0,
      `${capital(counted(after))} after ${after === 1 ? "that is" : "that are"} not signed.`,
    );
  if (takenIn > 0) sentences.push(unseenSentence(takenIn, signedEntries));
  return sentences;
}

function unseenSentence(takenIn: number, signedEntries: number): string {
  const why = "came in a file, or from an older version: no device that signed saw";
  if (takenIn === signedEntries) return `All that is signed ${why} it being made.`;
  return `${capital(counted(takenIn))} of it ${why} ${takenIn === 1 ? "it" : "them"} being made.`;
}

function alteredSentences(visit: Visit, misfits: readonly Misfit[]): string[] {
  const sentences = inRuns(misfits).map((run) =>
    typeof run.last === "number" && run.first.kind === "entry" && run.last > run.first.seq
      ? `Entries ${run.first.seq + 1} to ${run.last + 1} are not as they were logged.`
      : misfitWords(visit, run.first),
  );
  if (sentences.length <= MOST_PLACES) return sentences;
  return [
    ...sentences.slice(0, MOST_PLACES - 1),
    `And ${sentences.length - MOST_PLACES + 1} more places do not fit.`,
  ];
}

interface Run {
  readonly first: Misfit;
  /** The last entry of a run of them, from 0; null for what is no entry. */
  readonly last: number | null;
}

/** Entries that follow one another as one: where one was taken away, all after it are other than they were. */
function inRuns(misfits: readonly Misfit[]): Run[] {
  const runs: Run[] = [];
  for (const misfit of misfits) {
    const before = runs.at(-1);
    if (misfit.kind !== "entry") runs.push({ first: misfit, last: null });
    else if (before && before.last === misfit.seq - 1)
      runs[runs.length - 1] = { first: before.first, last: misfit.seq };
    else runs.push({ first: misfit, last: misfit.seq });
  }
  return runs;
}

function unsignedSentences(visit: Visit, linked: boolean): string[] {
  if (!linked)
    return ["Nobody signed it, and it holds nothing to check it by: whether it was changed cannot be told."];
  return [
    foldVisit(visit).finished
      ? "Nobody signed it. Its check sums fit, which rules out slips, not forgery."
      : "Not signed: a visit is signed once it is finished. Its check sums fit, which rules out slips, not forgery.",
  ];
}

/** "entry 4 (“CO forty”)". */
function entryName({ entries }: Visit, seq: number): string {
  const words = shortText(entries[seq]?.said ?? "", SAID_LETTERS);
  return words === "" ? `entry ${seq + 1}` : `entry ${seq + 1} (“${words}”)`;
}

function by({ head }: Visit, { key, at }: Signed): string {
  const zone = head.zone === null ? " UTC" : "";
  return `with key ${fingerprint(key)} on ${dayTime(at, head.zone)}${zone} by its device's clock`;
}

function counted(entries: number): string {
  return entries === 0 ? "no entry" : entries === 1 ? "one entry" : `${entries} entries`;
}

function isAre(count: number): string {
  return count < 2 ? "is" : "are";
}

function lowered(sentence: string): string {
  return sentence.charAt(0).toLowerCase() + sentence.slice(1);
}
