import { Fuel } from "../../measure/firing.ts";
import { shownUnit } from "../../measure/unit.ts";
import { pathText } from "../../record/problem.ts";
import { problemsOf } from "../../record/zod-problems.ts";
import { Adjuster, FuelLimits, Sheet } from "../../visit/sheet.ts";
import { doubtsAbout } from "./doubts.ts";
import type { AdjusterDraft, BandDraft, FuelDraft, LowCo2Draft, SheetDraft } from "./draft.ts";
import { typedNumber, typedTurns, withoutUnit } from "./numbers.ts";
import type { FieldNote, Seconds, SheetParts, SheetSurroundings } from "./parts.ts";

/** What a form's texts come to. */
export interface SheetCheck {
  /** Null while there are problems. */
  readonly sheet: Sheet | null;
  /** What has to be mended before it can be kept, in the order of the form. */
  readonly problems: readonly FieldNote[];
  /** What can be so, but seldom is: told, and no hindrance, for the maker's paper prevails. */
  readonly doubts: readonly FieldNote[];
  readonly parts: SheetParts;
}

/** Reads a form: a sheet, or every problem with its field; and what is unlikely in what could be read. Never throws. */
export function checkSheet(draft: SheetDraft, around: SheetSurroundings): SheetCheck {
  const raw = rawOf(draft);
  const read = Sheet.safeParse(raw.value);
  const problems = read.success
    ? []
    : problemsOf(read.error.issues, raw.value).map(({ path, message }) => note(path, message, raw.numbers));
  const parts = partsOf(draft, raw.value);
  return {
    sheet: read.success ? read.data : null,
    problems: inFormOrder(problems),
    doubts: doubtsAbout(parts, draft.title, around),
    parts,
  };
}

function note(path: string, message: string, numbers: ReadonlyMap<string, string>): FieldNote {
  const twoWays = typedNumber(numbers.get(path) ?? "");
  if (twoWays.kind === "two-ways") {
    const [one, other] = twoWays.values;
    return { path, isEmpty: false, message: `Can be read in two ways: write ${one}, or ${other}.` };
  }
  if (/found ""\.$|the field is missing\.$/.test(message)) {
    return { path, isEmpty: true, message: "Not filled in yet." };
  }
  if (message.startsWith("Expected min not above max")) {
    return { path, isEmpty: false, message: "The lower end is above the upper one." };
  }
  if (path === "fuels") return { path, isEmpty: true, message: "At least one gas is needed." };
  return { path, isEmpty: false, message };
}

/** What stands first in the form is told first. */
const ORDER = ["source", "title", "fuels", "adjusters", "settleSeconds", "closing"];

function inFormOrder(notes: readonly FieldNote[]): FieldNote[] {
  const place = ({ path }: FieldNote) => ORDER.findIndex((name) => path.startsWith(name));
  return [...notes].sort((a, b) => place(a) - place(b));
}

interface Raw {
  /** Built like a sheet. A text that is no number stays a text, so that the schema refuses it by name. */
  readonly value: {
    readonly source: Sheet["source"];
    readonly fuels: Readonly<Record<string, unknown>>;
    readonly adjusters: { readonly high: unknown; readonly low: unknown };
    readonly settleSeconds: { readonly high: unknown; readonly low: unknown };
    readonly closing: Sheet["closing"];
  };
  /** The text of each number field, by its path. */
  readonly numbers: ReadonlyMap<string, string>;
}

function rawOf(draft: SheetDraft): Raw {
  const numbers = new Map<string, string>();
  const number: ReadNumber = (path, text, units, read = typedNumber) => {
    const bare = withoutUnit(text, units);
    numbers.set(pathText(path), bare);
    const typed = read(bare);
    if (typed.kind === "empty") return undefined;
    return typed.kind === "number" ? typed.value : text.trim();
  };
  const value = {
    format: "burnerside-sheet/1",
    id: draft.id,
    title: draft.title.trim(),
    source: trimmed(draft.source),
    fuels: Object.fromEntries(
      Fuel.options.flatMap((fuel) => {
        const one = draft.fuels[fuel];
        return one ? [[fuel, rawFuel(one, fuel, number)]] : [];
      }),
    ),
    adjusters: {
      high: rawAdjuster(draft.adjusters.high, ["adjusters", "high"], number),
      low: rawAdjuster(draft.adjusters.low, ["adjusters", "low"], number),
    },
    settleSeconds: {
      high: number(["settleSeconds", "high"], draft.settleSeconds.high, SECONDS),
      low: number(["settleSeconds", "low"], draft.settleSeconds.low, SECONDS),
    },
    closing: draft.closing,
  };
  return { value, numbers };
}

type Path = readonly string[];
/** `units`: what may stand behind the number. */
type ReadNumber = (
  path: Path,
  text: string,
  units: readonly string[],
  read?: typeof typedNumber,
) => number | string | undefined;

const SECONDS = ["s", "sec", "second", "seconds"];
const TURNS = ["turn", "turns"];

function trimmed(source: SheetDraft["source"]): SheetDraft["source"] {
  const { document, edition, page, enteredBy, enteredOn } = source;
  return {
    document: document.trim(),
    edition: edition.trim(),
    page: page.trim(),
    enteredBy: enteredBy.trim(),
    enteredOn: enteredOn.trim(),
  };
}

function rawFuel(draft: FuelDraft, fuel: Fuel, number: ReadNumber): unknown {
  const at = (...path: Path) => ["fuels", fuel, ...path];
  const pressures = draft["gas-pressure-inlet"];
  const drop = number(at("gas-pressure-inlet", "maxDrop", "value"), pressures.maxDrop.value, [
    shownUnit(pressures.maxDrop.unit),
  ]);
  const pressure = filled({
    static: rawBand(pressures.static, at("gas-pressure-inlet", "static"), number),
    dynamic: rawBand(pressures.dynamic, at("gas-pressure-inlet", "dynamic"), number),
    maxDrop: drop === undefined ? undefined : { value: drop, unit: pressures.maxDrop.unit },
  });
  return {
    high: filled({
      co2: rawBand(draft.high.co2, at("high", "co2"), number),
      o2: rawBand(draft.high.o2, at("high", "o2"), number),
      co: rawBand(draft.high.co, at("high", "co"), number),
    }),
    low: filled({
      co2: rawLowCo2(draft.low.co2, at("low", "co2"), number),
      o2: rawBand(draft.low.o2, at("low", "o2"), number),
      co: rawBand(draft.low.co, at("low", "co"), number),
    }),
    ...(Object.keys(pressure).length > 0 && { "gas-pressure-inlet": pressure }),
  };
}

/** Nothing where nothing was typed: a missing limit means that none is known. */
function rawBand({ min, max, unit }: BandDraft, path: Path, number: ReadNumber): object | undefined {
  const ends = filled({
    min: number([...path, "min"], min, [shownUnit(unit)]),
    max: number([...path, "max"], max, [shownUnit(unit)]),
  });
  return Object.keys(ends).length === 0 ? undefined : { ...ends, unit };
}

function rawLowCo2(draft: LowCo2Draft, path: Path, number: ReadNumber): object | undefined {
  if (draft.way === "band") return rawBand(draft, path, number);
  const within = [...path, "belowHigh"];
  const belowHigh = filled({
    min: number([...within, "min"], draft.min, [shownUnit(draft.unit)]),
    max: number([...within, "max"], draft.max, [shownUnit(draft.unit)]),
  });
  return Object.keys(belowHigh).length === 0 ? undefined : { belowHigh, unit: draft.unit };
}

function rawAdjuster(draft: AdjusterDraft, path: Path, number: ReadNumber): unknown {
  return {
    co2Rises: draft.co2Rises,
    percentPerTurn: draft.percentUnknown
      ? null
      : number([...path, "percentPerTurn"], draft.percentPerTurn, ["%"]),
    largestStepTurns: number([...path, "largestStepTurns"], draft.largestStepTurns, TURNS, typedTurns),
    ...(draft.underCap && { underCap: true }),
  };
}

function filled<T extends object>(fields: T): Partial<T> {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as Partial<T>;
}

function partsOf(draft: SheetDraft, raw: Raw["value"]): SheetParts {
  const adjuster = (value: unknown) => Adjuster.safeParse(value).data ?? null;
  const seconds = (value: unknown): Seconds => {
    if (value === undefined) return null;
    return typeof value === "number" && value >= 0 ? value : "unreadable";
  };
  return {
    source: raw.source,
    fuels: Object.fromEntries(
      Fuel.options.flatMap((fuel) =>
        draft.fuels[fuel] ? [[fuel, FuelLimits.safeParse(raw.fuels[fuel]).data ?? null]] : [],
      ),
    ),
    adjusters: { high: adjuster(raw.adjusters.high), low: adjuster(raw.adjusters.low) },
    settleSeconds: { high: seconds(raw.settleSeconds.high), low: seconds(raw.settleSeconds.low) },
    closing: raw.closing,
  };
}
