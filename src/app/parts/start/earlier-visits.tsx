import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { harmless } from "../../../measure/harmless.ts";
import { dayTime, FUEL_NAMES } from "../../../record/wording.ts";
import type { VisitHead } from "../../../visit/visit.ts";
import type { VisitSummary } from "../../start/visit-summary.ts";
import { titleOf } from "../../start/visit-title.ts";
import type { Workplace } from "../../workplace.ts";
import { ExportButton, ExportPart } from "../exports/export-part.tsx";
import { Question } from "../question.tsx";

/** So many are shown at first, and with each tap on “more”. */
const STEP = 10;

/** The visits in the notebook, newest first: to go on with, look through, hand over or delete. */
export function EarlierVisits({ workplace }: { readonly workplace: Workplace }) {
  const most = useSignal(STEP);
  const visits = workplace.visits.heads.value;
  const shown = visits.slice(0, most.value);
  const { summaries } = workplace;
  useEffect(() => {
    void summaries.want(shown.map(({ id }) => id));
  }, [visits, most.value]);
  const left = visits.length - shown.length;
  return (
    <section class="strip" aria-labelledby="visits-heading">
      <h2 id="visits-heading" tabIndex={-1}>
        Earlier visits
      </h2>
      {visits.length === 0 && <p>None in this notebook yet.</p>}
      <ul class="rows visit-rows">
        {shown.map((head) => (
          <VisitRow
            key={head.id}
            workplace={workplace}
            head={head}
            summary={summaries.known.value.get(head.id)}
          />
        ))}
      </ul>
      {left > 0 && (
        <button
          type="button"
          onClick={() => {
            most.value += STEP;
          }}
        >
          {left === 1 ? "One more" : `${left} more`}
        </button>
      )}
    </section>
  );
}

interface VisitRowProps {
  readonly workplace: Workplace;
  readonly head: VisitHead;
  /** Undefined while it is read, null where it cannot be. */
  readonly summary: VisitSummary | null | undefined;
}

function VisitRow({ workplace, head, summary }: VisitRowProps) {
  const asking = useSignal(false);
  const title = titleOf(head);
  const day = dayTime(head.startedAt, head.zone);
  const name = `${title}, ${day}`;
  return (
    <li>
      <div>
        <strong>{title}</strong>
        <span>
          {day}, {FUEL_NAMES[head.fuel].toLowerCase()}
        </span>
        <span class="visit-stand">{summaryWords(summary)}</span>
      </div>
      <div class="row-buttons">
        <button type="button" aria-label={`Go on: ${name}`} onClick={() => void workplace.goOn(head.id)}>
          Go on
        </button>
        <button
          type="button"
          aria-label={`Look it over: ${name}`}
          onClick={() => void workplace.goTo({ kind: "afterwards", visitId: head.id })}
        >
          Look it over
        </button>
        <button
          type="button"
          aria-label={`Visit record: ${name}`}
          onClick={() => void workplace.goTo({ kind: "record", visitId: head.id })}
        >
          Visit record
        </button>
        <ExportButton workplace={workplace} head={head} label={`Export: ${name}`}>
          Export
        </ExportButton>
        <button
          type="button"
          class="plain"
          aria-label={`Delete: ${name}`}
          onClick={() => {
            asking.value = true;
          }}
        >
          Delete
        </button>
      </div>
      <ExportPart workplace={workplace} head={head} />
      {asking.value && (
        <Question
          label={`Delete ${name}`}
          onNo={() => {
            asking.value = false;
          }}
          onExport={() => void workplace.exportVisit(head.id)}
          yes="Yes, delete it"
          onYes={() => {
            void workplace
              .removeVisit(head.id)
              .then(() => document.getElementById("visits-heading")?.focus());
          }}
        >
          Delete “{title}” of {day}? {lost(summary)} and its kept sound go for good, and nobody can bring them
          back. A file that was exported stays.
        </Question>
      )}
    </li>
  );
}

function summaryWords(summary: VisitSummary | null | undefined): string {
  if (summary === undefined) return "…";
  if (summary === null) return "cannot be read";
  const { finished, readings, open, reviewedBy } = summary;
  return [
    finished ? "Finished" : "Not finished",
    counted(readings, "reading"),
    open === 0 ? "nothing open" : `${counted(open, "thing")} open`,
    reviewedBy === null ? "not reviewed" : `reviewed by ${harmless(reviewedBy)}`,
  ].join(", ");
}

function lost(summary: VisitSummary | null | undefined): string {
  return summary
    ? `Its ${counted(summary.readings, "reading")}, all else that was logged`
    : "All that was logged";
}

function counted(count: number, thing: string): string {
  return `${count} ${thing}${count === 1 ? "" : "s"}`;
}
