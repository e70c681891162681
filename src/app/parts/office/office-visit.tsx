import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { fingerprint } from "../../../record/integrity/fingerprint.ts";
import { applianceKey } from "../../../record/office/drift.ts";
import type { RevisionNote } from "../../../record/office/kept.ts";
import type { LogFound } from "../../../record/office/log-found.ts";
import { technicianWords } from "../../../record/technician-words.ts";
import { dayTime } from "../../../record/wording.ts";
import type { Office, OpenVisit } from "../../office/office.ts";
import type { ListedVisit } from "../../office/search.ts";
import { counted, DANGER_WORDS, LOG_WORDS } from "../../office/words.ts";
import { hashOf } from "../../place.ts";
import type { Workplace } from "../../workplace.ts";
import { ExportButton, ExportPart } from "../exports/export-part.tsx";
import { NoticeBoard } from "../notice-board.tsx";
import { Question } from "../question.tsx";
import { RecordBusy, RecordButtons } from "../record/record-buttons.tsx";
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
      <VisitRecord workplace={workplace} opened={opened} />
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
      <Fact name="Technician">{technicianWords(row)}</Fact>
      <Fact name="As left">
        <Outcome of={row.outcome} />
      </Fact>
      <Fact name="Dangers that stand at the end">
        {row.warnings.length === 0 ? "none" : row.warnings.map((code) => DANGER_WORDS[code]).join("; ")}
      </Fact>
      <Fact name="Open things">{row.open === 0 ? "none" : String(row.open)}</Fact>
      <Fact name="Follow-ups open">{kept.openFollowUps === 0 ? "none" : String(kept.openFollowUps)}</Fact>
      <Fact name="Reviewed by">{row.reviewedBy ?? "not yet"}</Fact>
      <Fact name="Log">
        <LogOf log={kept.log} />
      </Fact>
    </dl>
  );
}

/** What of it does not fit, or by whom it was signed where that is not one device, is told in the record. */
function LogOf({ log: { verdict, key } }: { readonly log: LogFound }) {
  if (verdict === "altered") return <strong class="log-altered">{`${LOG_WORDS.altered}: ${SEE}`}</strong>;
  if (key !== null) return <>{`${LOG_WORDS[verdict]}, key ${fingerprint(key)}`}</>;
  const more =
    verdict === "in-part" ? `: ${SEE}` : verdict === "whole" ? `, not by one device alone: ${SEE}` : "";
  return <>{`${LOG_WORDS[verdict]}${more}`}</>;
}

const SEE = "see “Log” in the record";

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
  const { revisions, forked, row } = kept;
  const [standing] = revisions;
  if (revisions.length === 1) return <p class="faint">Taken in once, from {standing?.file}.</p>;
  return (
    <section class="review revisions-part" aria-labelledby="revisions-heading">
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
              <span>{revisionWords(revision, standing, row.zone)}</span>
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

/** Times are as at the place of the visit, like all others of it. */
function revisionWords(
  revision: RevisionNote,
  standing: RevisionNote | undefined,
  zone: string | null,
): string {
  const time = (at: string) => `${dayTime(at, zone)}${zone === null ? " UTC" : ""}`;
  const { entries, endedAt, reviewedBy, file, takenAt } = revision;
  const differs =
    standing && standing !== revision
      ? standing.entries === entries
        ? ", as many as what stands"
        : `, ${Math.abs(standing.entries - entries)} ${standing.entries > entries ? "fewer" : "more"} than what stands`
      : "";
  return [
    `${counted(entries, "entry")}${differs}`,
    `the last ${time(endedAt)}`,
    reviewedBy === null ? "not reviewed" : `reviewed by ${reviewedBy}`,
    `log ${LOG_WORDS[revision.log]}`,
    `from ${file}, taken in ${time(takenAt)}`,
  ].join("; ");
}

interface RecordProps {
  readonly workplace: Workplace;
  readonly opened: OpenVisit;
}

/** What stands of the visit, or the revision that is shown, judged anew. On paper it is all there is. */
function VisitRecord({ workplace, opened: { visit } }: RecordProps) {
  const { records } = workplace;
  useEffect(() => {
    records.show(visit);
    return () => records.close();
  }, [visit]);
  const open = records.open.value;
  return (
    <div class="record office-record" aria-busy={open === null}>
      {open ? (
        <RecordPlate report={open.report} heading="h2" />
      ) : (
        <p role="status">Working out the record …</p>
      )}
    </div>
  );
}

interface WaysProps extends RecordProps {
  readonly office: Office;
}

/** What can be done with the visit that is shown. */
function Ways({ workplace, office, opened: { kept, visit } }: WaysProps) {
  const asking = useSignal(false);
  const { head } = visit;
  const drop = async () => {
    const dropped = await office.drop(kept.id);
    if (dropped) await workplace.goTo({ kind: "office", part: { kind: "visits" } });
  };
  return (
    <section class="strip" aria-label="This visit">
      <div class="row-buttons">
        <RecordButtons workplace={workplace} />
        <ExportButton workplace={workplace} head={head}>
          Export this visit
        </ExportButton>
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
      <RecordBusy workplace={workplace} />
      <NoticeBoard workplace={workplace} />
      <ExportPart workplace={workplace} head={head} given={{ visit, done: () => office.done.value }} />
      {asking.value && (
        <Question
          label={`Delete ${kept.title}`}
          onNo={() => {
            asking.value = false;
          }}
          onExport={() => {
            asking.value = false;
            workplace.exporting.value = head.id;
          }}
          yes="Yes, delete it"
          onYes={() => void drop()}
        >
          {lost(kept)} A visit of this device's own notebook, and files, stay.
        </Question>
      )}
    </section>
  );
}

/** What is asked before a visit is deleted. */
function lost(kept: ListedVisit): string {
  const { title, row, revisions, followUps, openFollowUps } = kept;
  const done = followUps.length - openFollowUps;
  const marks =
    done === 0
      ? ""
      : ` and ${done === 1 ? "the mark" : `the ${done} marks`} of what was done of its follow-ups: taken in again, they are open again`;
  return `Delete “${title}” of ${dayTime(row.startedAt, row.zone)} from the office for good, with ${counted(revisions.length, "revision")}${marks}?`;
}
