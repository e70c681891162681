import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import { shownNumber } from "../../../measure/show.ts";
import type { Figure as FigureOf } from "../../../record/office/row.ts";
import { FUEL_NAMES, shownDay } from "../../../record/wording.ts";
import type { Office } from "../../office/office.ts";
import { COLUMNS, type Column, type ListedVisit } from "../../office/search.ts";
import { DANGER_WORDS } from "../../office/words.ts";
import { hashOf } from "../../place.ts";
import { Mark } from "../mark.tsx";
import { Outcome } from "./outcome.tsx";
import { TableBlocks } from "./table-blocks.tsx";

export const COLUMN_NAMES: Readonly<Record<Column, string>> = {
  day: "Day",
  title: "Title",
  place: "Place",
  appliance: "Appliance",
  gas: "Gas",
  technician: "Technician",
  outcome: "As left",
  "high-co2": "High fire CO2, %",
  "high-co": "High fire CO, ppm",
  "low-co2": "Low fire CO2, %",
  "low-co": "Low fire CO, ppm",
  open: "Open things",
  "follow-ups": "Follow-ups",
  reviewed: "Reviewed by",
};

/** How high a row is before any was drawn, px. */
const ROW_HEIGHT = 64;

/** The visits that are shown, a row each; on a narrow screen a plate each. */
export function VisitsTable({ office }: { readonly office: Office }) {
  const rows = office.shown.value;
  const { column: by, descending } = office.sorting.value;
  // Whoever comes back from a visit is at its row again.
  const [cameFrom] = useState(office.lookedAt);
  useEffect(() => {
    if (cameFrom !== null) document.getElementById(linkId(cameFrom))?.focus();
    office.lookedAt = null;
  }, []);
  const kept = cameFrom === null ? -1 : rows.findIndex(({ id }) => id === cameFrom);
  return (
    <table class="visits-table" aria-rowcount={rows.length + 1}>
      <caption class="for-ears">Visits</caption>
      <thead>
        <tr>
          {COLUMNS.map((column) => (
            <th
              key={column}
              scope="col"
              class={`column-${column}`}
              aria-sort={by === column ? (descending ? "descending" : "ascending") : undefined}
            >
              <button type="button" onClick={() => office.sortBy(column)}>
                {COLUMN_NAMES[column]}
                <span aria-hidden="true">{by === column ? (descending ? " ▼" : " ▲") : ""}</span>
              </button>
            </th>
          ))}
        </tr>
      </thead>
      <TableBlocks
        rows={rows}
        columns={COLUMNS.length}
        rowHeight={ROW_HEIGHT}
        kept={kept === -1 ? null : kept}
        draw={(visit, place) => <VisitRow key={visit.id} visit={visit} place={place} />}
      />
    </table>
  );
}

function VisitRow({ visit, place }: { readonly visit: ListedVisit; readonly place: number }) {
  return (
    <tr aria-rowindex={place + 2}>
      {COLUMNS.map((column) =>
        column === "title" ? (
          <th key={column} scope="row" class="column-title">
            {cell(visit, column)}
          </th>
        ) : (
          <td key={column} class={`column-${column}`} data-name={COLUMN_NAMES[column]}>
            {cell(visit, column)}
          </td>
        ),
      )}
    </tr>
  );
}

function linkId(visitId: string): string {
  return `visit ${visitId}`;
}

/** Null where there is nothing to show. */
function cell(visit: ListedVisit, column: Column): ComponentChildren {
  const { row } = visit;
  switch (column) {
    case "day":
      return shownDay(visit.day);
    case "title":
      return (
        <a
          id={linkId(visit.id)}
          href={`#${hashOf({ kind: "office", part: { kind: "visit", id: visit.id } })}`}
        >
          {visit.title}
          {visit.forked && <span class="forked"> (went on in two ways)</span>}
          {visit.log.verdict === "altered" && <strong class="log-altered"> (log altered)</strong>}
        </a>
      );
    case "place":
      return row.place || null;
    case "appliance":
      return row.appliance || null;
    case "gas":
      return FUEL_NAMES[row.fuel];
    case "technician":
      return row.technician || null;
    case "outcome":
      return (
        <>
          <Outcome of={row.outcome} />
          {row.warnings.length > 0 && (
            <span class="danger-stands">
              Danger at the end: {row.warnings.map((code) => DANGER_WORDS[code]).join("; ")}
            </span>
          )}
        </>
      );
    case "high-co2":
      return <Figure of={row.left.high.co2} />;
    case "high-co":
      return <Figure of={row.left.high.co} />;
    case "low-co2":
      return <Figure of={row.left.low.co2} />;
    case "low-co":
      return <Figure of={row.left.low.co} />;
    case "open":
      return row.open === 0 ? "none" : row.open;
    case "follow-ups":
      return visit.openFollowUps === 0 ? "none" : visit.openFollowUps;
    case "reviewed":
      return row.reviewedBy ?? <span class="faint">not yet</span>;
  }
}

/** A value, with the mark where it is out of its limits. */
function Figure({ of }: { readonly of: FigureOf | null }) {
  if (!of) return <span class="faint">not read</span>;
  return (
    <span class="figure">
      {shownNumber(of.value)}
      {of.verdict === "fail" && (
        <>
          {" "}
          <Mark verdict="fail" />
          <span class="for-ears"> out of limits</span>
        </>
      )}
    </span>
  );
}
