import { Fuel } from "../../measure/firing.ts";
import { FUEL_NAMES } from "../../record/wording.ts";
import type { Sheet } from "../../visit/sheet.ts";
import type { VisitHead } from "../../visit/visit.ts";

/** A sheet as the start page lists it. */
export interface SheetRow {
  readonly sheet: Sheet;
  /** As shown, and said: "sheet two". It stays, whichever was used last. */
  readonly number: number;
  readonly isLast: boolean;
  readonly isDemo: boolean;
}

/** The sheets to choose from: the one used last, then the person's own by their titles, then the demo's. */
export function sheetRows(
  own: readonly Sheet[],
  all: readonly Sheet[],
  visits: readonly VisitHead[],
): SheetRow[] {
  const ids = new Set(own.map(({ id }) => id));
  const byTitle = [...own].sort((a, b) => a.title.localeCompare(b.title, undefined, { numeric: true }));
  const listed = [...byTitle, ...all.filter(({ id }) => !ids.has(id))];
  const last = lastUsed(listed, visits);
  const ordered = last ? [last, ...listed.filter((sheet) => sheet !== last)] : listed;
  return ordered.map((sheet) => ({
    sheet,
    number: listed.indexOf(sheet) + 1,
    isLast: sheet === last,
    isDemo: !ids.has(sheet.id),
  }));
}

/** The sheet of the newest visit that had one which is still here. @param visits newest first */
function lastUsed(sheets: readonly Sheet[], visits: readonly VisitHead[]): Sheet | null {
  for (const { sheet } of visits) {
    const here = sheet && sheets.find(({ id }) => id === sheet.id);
    if (here) return here;
  }
  return null;
}

/** The gases of a sheet in words: "Natural gas and propane". */
export function fuelWords(sheet: Sheet): string {
  const [first, ...more] = fuelsOf(sheet).map((fuel) => FUEL_NAMES[fuel]);
  return [first ?? "", ...more.map((name) => name.toLowerCase())].join(" and ");
}

/** The gases that a sheet has limits for; without a sheet, all. */
export function fuelsOf(sheet: Sheet | null): readonly Fuel[] {
  return sheet ? Fuel.options.filter((fuel) => sheet.fuels[fuel] !== undefined) : Fuel.options;
}
