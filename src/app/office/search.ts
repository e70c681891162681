import type { Fuel } from "../../measure/firing.ts";
import type { KeptVisit } from "../../record/office/kept.ts";
import type { Outcome } from "../../record/office/row.ts";
import { FUEL_NAMES, shownDay } from "../../record/wording.ts";
import { titleOf } from "./words.ts";

/** A visit of the list, with what searching and sorting would else work out each time. */
export interface ListedVisit extends KeptVisit {
  readonly title: string;
  /** Follow-ups that nobody has marked as done. */
  readonly openFollowUps: number;
  /** All its text fields, folded. */
  readonly searched: string;
}

/** Text without case and diacritics, so that "Muhle" finds "Mühle" and "STRASSE" "Straße". */
export function folded(text: string): string {
  return text.normalize("NFKD").replace(/\p{M}/gu, "").toUpperCase().toLowerCase();
}

/** What was worked out of a visit once: the list is made anew with every visit that is taken in. */
const known = new WeakMap<KeptVisit, Pick<ListedVisit, "title" | "searched">>();

/** @param done keys of the follow-ups that were marked as done */
export function listed(kept: KeptVisit, done: ReadonlySet<string>): ListedVisit {
  const texts = known.get(kept) ?? textsOf(kept);
  known.set(kept, texts);
  return {
    ...kept,
    ...texts,
    openFollowUps: kept.followUps.filter(({ key }) => !done.has(key)).length,
  };
}

function textsOf({ day, row, notes }: KeptVisit): Pick<ListedVisit, "title" | "searched"> {
  const title = titleOf(row);
  const fields = [
    row.title,
    withoutGases(row.sheet ?? ""),
    day,
    shownDay(day),
    row.place,
    row.appliance,
    row.technician,
    row.licence,
    row.firm,
    row.instrument,
    row.reviewedBy ?? "",
    FUEL_NAMES[row.fuel],
    notes,
  ];
  return { title, searched: folded(fields.join("\n")) };
}

const GASES = new RegExp(Object.values(FUEL_NAMES).join("|"), "gi");

/** A sheet's title may name gases that this visit did not burn. */
function withoutGases(title: string): string {
  return title.replace(GASES, "");
}

/** What the list is narrowed to. */
export interface Wanted {
  /** Words that all must be somewhere in a visit's text fields. */
  readonly words: string;
  readonly outcome: Outcome | null;
  readonly fuel: Fuel | null;
  readonly onlyOpen: boolean;
  readonly onlyUnreviewed: boolean;
  readonly onlyFollowUps: boolean;
  readonly onlyAltered: boolean;
  /** First and last day, YYYY-MM-DD, both within; "" where there is no bound. */
  readonly since: string;
  readonly until: string;
}

export const ALL: Wanted = {
  words: "",
  outcome: null,
  fuel: null,
  onlyOpen: false,
  onlyUnreviewed: false,
  onlyFollowUps: false,
  onlyAltered: false,
  since: "",
  until: "",
};

/** The visits that are wanted, in the order given. */
export function narrowed(visits: readonly ListedVisit[], wanted: Wanted): ListedVisit[] {
  const words = folded(wanted.words)
    .split(/\s+/)
    .filter((word) => word !== "");
  return visits.filter(
    ({ day, row, log, openFollowUps, searched }) =>
      (wanted.outcome === null || row.outcome === wanted.outcome) &&
      (wanted.fuel === null || row.fuel === wanted.fuel) &&
      (!wanted.onlyOpen || row.open > 0) &&
      (!wanted.onlyUnreviewed || row.reviewedBy === null) &&
      (!wanted.onlyFollowUps || openFollowUps > 0) &&
      (!wanted.onlyAltered || log.verdict === "altered") &&
      (wanted.since === "" || day >= wanted.since) &&
      (wanted.until === "" || day <= wanted.until) &&
      words.every((word) => searched.includes(word)),
  );
}

/** By what the list is sorted: a column and the way. */
export const COLUMNS = [
  "day",
  "title",
  "place",
  "appliance",
  "gas",
  "technician",
  "outcome",
  "high-co2",
  "high-co",
  "low-co2",
  "low-co",
  "open",
  "follow-ups",
  "reviewed",
] as const;
export type Column = (typeof COLUMNS)[number];

export interface Sorting {
  readonly column: Column;
  readonly descending: boolean;
}

export const NEWEST: Sorting = { column: "day", descending: true };

/** From what an office looks at first to what it can leave. */
const RANKS: Readonly<Record<Outcome, number>> = {
  "out-of-limits": 0,
  "not-proved": 1,
  "not-judged": 2,
  proved: 3,
};

/** Numbers in texts count as numbers, case and diacritics only where all else is the same. */
const texts = new Intl.Collator("en", { numeric: true });

/** What a column sorts by; null where there is nothing, which comes last either way. */
function keyOf(visit: ListedVisit, column: Column): string | number | null {
  const { row } = visit;
  switch (column) {
    case "day":
      return Date.parse(row.startedAt);
    case "title":
      return visit.title || null;
    case "place":
      return row.place || null;
    case "appliance":
      return row.appliance || null;
    case "gas":
      return FUEL_NAMES[row.fuel];
    case "technician":
      return row.technician || null;
    case "outcome":
      return RANKS[row.outcome];
    case "high-co2":
      return row.left.high.co2?.value ?? null;
    case "high-co":
      return row.left.high.co?.value ?? null;
    case "low-co2":
      return row.left.low.co2?.value ?? null;
    case "low-co":
      return row.left.low.co?.value ?? null;
    case "open":
      return row.open;
    case "follow-ups":
      return visit.openFollowUps;
    case "reviewed":
      return row.reviewedBy;
  }
}

/** Sorted by a column; of equal ones the newest first, whichever way. */
export function sorted(visits: readonly ListedVisit[], { column, descending }: Sorting): ListedVisit[] {
  const sign = descending ? -1 : 1;
  return visits
    .map((visit) => ({ visit, key: keyOf(visit, column), at: Date.parse(visit.row.startedAt) }))
    .sort((a, b) => {
      if (a.key === null || b.key === null) {
        if (a.key !== b.key) return a.key === null ? 1 : -1;
      } else if (typeof a.key === "number" && typeof b.key === "number") {
        if (a.key !== b.key) return sign * (a.key - b.key);
      } else {
        const order = texts.compare(String(a.key), String(b.key));
        if (order !== 0) return sign * order;
      }
      return b.at - a.at || (a.visit.id < b.visit.id ? -1 : 1);
    })
    .map(({ visit }) => visit);
}
