import { useLayoutEffect } from "preact/hooks";
import type { Report } from "../../record/report/parts.ts";
import { focusHeading } from "../parts/focus-heading.ts";
import { NoticeBoard } from "../parts/notice-board.tsx";
import { usePageTitle } from "../parts/page-title.ts";
import { RecordBusy, RecordButtons } from "../parts/record/record-buttons.tsx";
import { RecordPlate } from "../parts/record/record-plate.tsx";
import type { Workplace } from "../workplace.ts";

interface VisitRecordProps {
  readonly workplace: Workplace;
  readonly visitId: string;
}

/** The record of a visit, to print and to hand over. */
export function VisitRecord({ workplace, visitId }: VisitRecordProps) {
  const open = workplace.records.open.value;
  if (open) return <Shown workplace={workplace} visitId={visitId} report={open.report} />;
  return (
    <main class="page record" aria-busy="true">
      <p role="status">Working out the record …</p>
    </main>
  );
}

function Shown({ workplace, visitId, report }: VisitRecordProps & { readonly report: Report }) {
  usePageTitle(`${report.name}: ${report.heading.toLowerCase()}`);
  // It comes a moment after its screen.
  useLayoutEffect(() => {
    if (document.activeElement === document.body) focusHeading();
  }, []);
  return (
    <main class="page record" aria-busy={workplace.records.busy.value}>
      <nav class="visit-foot" aria-label="Record">
        <button type="button" onClick={() => void workplace.goTo({ kind: "start" })}>
          To the start
        </button>
        <button type="button" onClick={() => void workplace.goTo({ kind: "afterwards", visitId })}>
          Look it over
        </button>
        <RecordButtons workplace={workplace} class="main-button" />
      </nav>
      <RecordBusy workplace={workplace} />
      <NoticeBoard workplace={workplace} />
      <RecordPlate report={report} heading="h1" />
    </main>
  );
}
