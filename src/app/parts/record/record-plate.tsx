import type { Report } from "../../../record/report/parts.ts";
import { Plate } from "../plate.tsx";
import { ReportSection } from "./report-section.tsx";
import { useRunningFoot } from "./running-foot.ts";
import "../../styles/record.css";

interface RecordPlateProps {
  readonly report: Report;
  /** Of its heading: the page's own, or one under it. */
  readonly heading: "h1" | "h2";
}

/** The record of a visit as a plate, on the screen and on paper. */
export function RecordPlate({ report, heading: Heading }: RecordPlateProps) {
  useRunningFoot(report.name);
  return (
    <Plate label={`${report.heading}: ${report.name}`} class="record-plate">
      <header class="record-head">
        <Heading>{report.heading}</Heading>
        <p class="record-name">
          <bdi>{report.name}</bdi>
        </p>
        <p class="record-stand">{report.stand}</p>
        {report.notice !== "" && (
          <p class="record-notice">
            <bdi>{report.notice}</bdi>
          </p>
        )}
      </header>
      <div class="record-sections">
        {report.sections.map((section) => (
          <ReportSection key={section.id} section={section} />
        ))}
      </div>
      <footer class="record-foot">
        {report.foot.map((line) => (
          <p key={line}>{line}</p>
        ))}
      </footer>
    </Plate>
  );
}
