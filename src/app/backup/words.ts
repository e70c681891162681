import { visible } from "../../measure/harmless.ts";
import type { Counts } from "../../record/backup/line.ts";
import { type Found, isWhole } from "../../record/backup/read.ts";
import { dayTime } from "../../record/wording.ts";
import { counted } from "../office/words.ts";
import type { Restored, ToldOf } from "./restored.ts";

/** "14 visits, 3 limits sheets, 120 sounds". */
export function countsInWords({ visits, sheets, clips, officeVisits, officeDone }: Counts): string {
  const parts = [
    counted(visits, "visit"),
    sheets > 0 ? counted(sheets, "limits sheet") : "",
    clips > 0 ? counted(clips, "sound") : "",
    officeVisits > 0 ? `${counted(officeVisits, "export")} of visits in the office` : "",
    officeDone > 0 ? `${counted(officeDone, "follow-up")} marked as done` : "",
  ];
  return listed(parts);
}

/** "1.2 MB", as file managers count: a million bytes. */
export function sizeInWords(bytes: number): string {
  if (bytes < 1_000_000) return `${Math.max(1, Math.round(bytes / 1000))} kB`;
  return `${(bytes / 1_000_000).toFixed(1)} MB`;
}

/** What a backup is, before anything of it is restored: what it says of itself, what can be read of it, and what is wrong with it. */
export interface FoundInWords {
  readonly about: string;
  /** Empty where it is whole. */
  readonly problems: readonly string[];
  /** How many of its visits cannot be read, said once the rest is restored; "" where all can. */
  readonly lost: string;
}

export function foundInWords(found: Found, zone: string | null): FoundInWords {
  const { head, end, counts } = found;
  const made = head ? `Made on ${dayTime(head.madeAt, zone)} by ${visible(head.program)}. ` : "";
  const expected = end?.counts ?? head?.counts ?? null;
  const missing = expected ? Math.max(0, expected.visits - counts.visits) : 0;
  const all = counts.visits + missing;
  const visits = missing === 0 ? "" : `${counts.visits} of ${counted(all, "visit")} can be read. `;
  return {
    about: `${made}${visits}In it: ${countsInWords(counts)}${found.settings ? ", and settings" : ""}.`,
    problems: isWhole(found) ? missingInWords(end?.missing ?? []) : damageInWords(found),
    lost:
      missing === 0
        ? ""
        : `${missing} of ${counted(all, "visit")} not restored: the backup is damaged there.`,
  };
}

function missingInWords(missing: readonly string[]): string[] {
  return missing.map(
    (sentence) => `Not in it, as it could not be read when the backup was made: ${visible(sentence)}`,
  );
}

function damageInWords({ damage, damaged, problems, end }: Found): string[] {
  const lines = damage.map(({ line, damage: { what, problems: inLine } }) => {
    const [{ path, message } = { path: "", message: "" }] = inLine;
    const place = [`Line ${line}`, what === "" ? "" : visible(what), path]
      .filter((part) => part !== "")
      .join(", ");
    return `${place}: ${visible(message)}`;
  });
  const more = damaged - damage.length;
  return [
    ...problems.map(({ message }) => visible(message)),
    ...lines,
    ...(more > 0 ? [`And ${counted(more, "damaged line")} more.`] : []),
    ...missingInWords(end?.missing ?? []),
  ];
}

/** What was restored, what was here already, and what was not taken and why: a sentence each. */
export function restoredInWords(restored: Restored): { readonly done: string[]; readonly left: string[] } {
  const { visits, sheets, clips, office, officeDone, settings } = restored;
  const done = [
    sentence([
      [visits.added, "visit", "restored"],
      [visits.extended, "visit", "went on in the backup: what was missing here was added"],
      [visits.same, "visit", "here already, the same"],
      [visits.longerHere, "visit", "here already, and longer than in the backup"],
    ]),
    sentence([
      [sheets.added, "limits sheet", "restored"],
      [sheets.same, "limits sheet", "here already"],
    ]),
    sentence([
      [clips.added, "sound", "restored"],
      [clips.same, "sound", "here already"],
    ]),
    sentence([
      [office.added, "export", "taken in by the office"],
      [office.same, "export", "known to the office already"],
      [officeDone, "follow-up", "marked as done"],
    ]),
    settings === "taken" ? "The settings were taken over, but for those of sound and listening." : "",
  ];
  const left = [
    ...restored.told.map(toldInWords),
    clips.notKept > 0
      ? `${counted(clips.notKept, "sound")} not restored: older than sound is kept here, or this device keeps none.`
      : "",
    clips.withoutVisit > 0
      ? `${counted(clips.withoutVisit, "sound")} not restored: of visits that were not.`
      : "",
    office.refused > 0 ? `${counted(office.refused, "export")} not taken in by the office.` : "",
    settings === "unreadable" ? "The settings were not taken over: this version does not know them." : "",
    settings === "left" ? "The settings of this device stayed as they are." : "",
    restored.stopped === null
      ? ""
      : `It ended before its end: ${restored.stopped}. What was restored so far stays.`,
  ];
  const said = (one: string) => one !== "";
  return { done: done.filter(said), left: left.filter(said) };
}

function toldInWords(told: ToldOf): string {
  if (told.kind === "other-sheet")
    return `Limits sheet “${visible(told.title)}”: another one with its id is here, and stays. Visits hold their own copies.`;
  const name = `Visit “${told.title}” of ${dayTime(told.startedAt, told.zone)}`;
  switch (told.kind) {
    case "parted":
      return `${name}: not taken. What is here and what is in the backup went different ways; what is here stays. The backup still has the other.`;
    case "alteredThere":
      return `${name}: not taken. In the backup it goes on from what is here, but was altered there after it was made; what is here stays. The backup still has the other.`;
    case "unreadable":
      return `${name}: not taken. What is here of it cannot be read, and nothing is put in its place: delete it here, and restore the backup again.`;
    case "altered":
      return `${name}: restored as it is in the backup, where its log was altered after it was made.`;
  }
}

type Part = readonly [count: number, thing: string, what: string];

function sentence(parts: readonly Part[]): string {
  const said = parts
    .filter(([count]) => count > 0)
    .map(([count, thing, what]) => `${counted(count, thing)} ${what}`);
  return said.length === 0 ? "" : `${said.join("; ")}.`;
}

function listed(parts: readonly string[]): string {
  return parts.filter((part) => part !== "").join(", ");
}
