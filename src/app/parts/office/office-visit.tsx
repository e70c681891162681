import { useSignal } from "@preact/signals";
import { useMemo } from "preact/hooks";
import { applianceKey } from "../../../record/office/drift.ts";
import type { RevisionNote } from "../../../record/office/kept.ts";
import { reportOf } from "../../../record/report/report.ts";
import { dayTime } from "../../../record/wording.ts";
import type { Office, OpenVisit } from "../../office/office.ts";
import { counted } from "../../office/words.ts";
import { hashOf } from "../../place.ts";
import { fileNameOf } from "../../start/visit-title.ts";
import type { Workplace } from "../../workplace.ts";
import { Question } from "../question.tsx";
import { RecordPlate } from "../record/record-plate.tsx";
import { Outcome } from "./outcome.tsx";

interface OfficeVisitProps {
  readonly workplace: Workplace;
  readonly office: Office;
}

/** One visit of the office: what stands of it, its revisions, its record. */
export function OfficeVisit({ workplace, office }: OfficeVisitProps) {
  const opened = office.opened.value;
  if (!opened) return <p>No such visit is in the office.</p>;
  return (
    <>
      <Facts opened={opened} />
      <Revisions office={office} opened={opened} />
      <Ways workplace={workplace} office={office} opened={opened} />
      <VisitRecord opened={opened} now={workplace.now()} />
    </>
  );
}

function Facts({ opened: { kept } }: { readonly opened: OpenVisit }) {
  const { row } = kept;
  const key = applianceKey(row);
  return (
    <dl class="office-facts">
      <Fact name="Day">{dayTime(row.startedAt, row.zone)}</Fact>
      <Fact name="Appliance">
        {key && (
          <a href={`#${hashOf({ kind: "office", part: { kind: "appliance", id: key } })}`}>
            {row.appliance}, its history
          </a>
        )}
      </Fact>
      <Fact name="As left">
        <Outcome of={row.outcome} />
      </Fact>
      <Fact name="Follow-ups open">{kept.openFollowUps === 0 ? "none" : String(kept.openFollowUps)}</Fact>
      <Fact name="Reviewed by">{row.reviewedBy ?? "not yet"}</Fact>
    </dl>
  );
}

interface FactProps {
  readonly name: string;
  readonly children: preact.ComponentChildren;
}

function Fact({ name, children }: FactProps) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children || <span class="faint">not given</span>}</dd>
    </div>
  );
}

interface OpenedProps {
  readonly office: Office;
  readonly opened: OpenVisit;
}

/** What was taken in of one visit, and which of it is shown. */
function Revisions({ office, opened: { kept, number } }: OpenedProps) {
  const { revisions, forked } = kept;
  const [standing] = revisions;
  if (revisions.length === 1) return <p class="faint">Taken in once, from {standing?.file}.</p>;
  return (
    <section class="review" aria-labelledby="revisions-heading">
      <h2 id="revisions-heading">Revisions</h2>
      {forked && (
        <p>
          <strong>This visit went on in two ways.</strong> Both are kept; the one with the later last entry
          stands.
        </p>
      )}
      <ul class="rows revisions">
        {revisions.map((revision) => (
          <li key={revision.number} aria-current={revision.number === number ? "true" : undefined}>
            <div>
              <strong>{revision === standing ? "Stands" : "Superseded"}</strong>
              <span>{revisionWords(revision, standing)}</span>
            </div>
            {revision.number === number ? (
              <p>Shown below</p>
            ) : (
              <button
                type="button"
                aria-label={`Show the revision with ${counted(revision.entries, "entry")}`}
                onClick={() => void office.show(kept.id, revision.number)}
              >
                Show
              </button>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}

function revisionWords(revision: RevisionNote, standing: RevisionNote | undefined): string {
  const { entries, endedAt, reviewedBy, file, takenAt } = revision;
  const differs =
    standing && standing !== revision
      ? standing.entries === entries
        ? ", as many as what stands"
        : `, ${Math.abs(standing.entries - entries)} ${standing.entries > entries ? "fewer" : "more"} than what stands`
      : "";
  return [
    `${counted(entries, "entry")}${differs}`,
    `the last ${dayTime(endedAt, null)} UTC`,
    reviewedBy === null ? "not reviewed" : `reviewed by ${reviewedBy}`,
    `from ${file}, taken in ${dayTime(takenAt, null)} UTC`,
  ].join("; ");
}

/** What stands of the visit, or the revision that is shown, judged anew. */
function VisitRecord({ opened: { visit }, now }: { readonly opened: OpenVisit; readonly now: string }) {
  const report = useMemo(() => reportOf(visit, now), [visit]);
  return <RecordPlate report={report} heading="h2" />;
}

function Ways({
  workplace,
  office,
  opened: { kept, visit },
}: OpenedProps & { readonly workplace: Workplace }) {
  const asking = useSignal(false);
  const drop = async () => {
    const dropped = await office.drop(kept.id);
    if (dropped) await workplace.goTo({ kind: "office", part: { kind: "visits" } });
  };
  const exportIt = () => void office.export("bundles", [kept.id], fileNameOf(visit.head));
  return (
    <section class="strip" aria-label="This visit">
      <div class="row-buttons">
        <button type="button" onClick={exportIt}>
          Export this visit
        </button>
        <button
          type="button"
          class="plain"
          onClick={() => {
            asking.value = true;
          }}
        >
          Delete from the office
        </button>
      </div>
      {asking.value && (
        <Question
          label={`Delete ${kept.title}`}
          onNo={() => {
            asking.value = false;
          }}
          onExport={exportIt}
          yes="Yes, delete it"
          onYes={() => void drop()}
        >
          Delete “{kept.title}” of {dayTime(kept.row.startedAt, kept.row.zone)} from the office, with{" "}
          {counted(kept.revisions.length, "revision")}, for good? A visit of this device's own notebook, and
          files, stay.
        </Question>
      )}
    </section>
  );
}
