import { useEffect, useMemo, useRef } from "preact/hooks";
import { reasonOf } from "../../../device/notebook/trouble.ts";
import { type DoneMarks, NONE_DONE } from "../../../record/export/done-marks.ts";
import type { Visit, VisitHead } from "../../../visit/visit.ts";
import { Exports } from "../../exports/exports.ts";
import { ABOUT, type ExportKind } from "../../exports/kinds.ts";
import { titleOf } from "../../start/visit-title.ts";
import type { Workplace } from "../../workplace.ts";
import "../../styles/exports.css";

interface ExportChoiceProps {
  readonly workplace: Workplace;
  readonly head: VisitHead;
  /** Where it is no visit of the notebook: the visit, and what an office has marked as done. */
  readonly given?: GivenVisit;
}

export interface GivenVisit {
  readonly visit: Visit;
  readonly done: () => DoneMarks;
}

/** The kinds that a visit can be handed over as: to save each, and to share it where the platform can. */
export function ExportChoice({ workplace, head, given }: ExportChoiceProps) {
  const exports = useMemo(
    () =>
      new Exports({
        visit: async () => given?.visit ?? (await workplace.visits.visit(head.id)),
        handOver: () => (given ? workplace.visits.examine(given.visit) : workplace.visits.handOver(head.id)),
        done: () => given?.done() ?? NONE_DONE,
        // What the office shows is not of this notebook.
        handed: async (visit) => (given ? undefined : workplace.backups.handed(visit)),
        now: workplace.now,
        reason: reasonOf,
      }),
    [head.id, given?.visit],
  );
  const box = useRef<HTMLElement>(null);
  const kinds = exports.kinds.value;
  useEffect(() => {
    const before = document.activeElement;
    void exports.look();
    return () => {
      if (before instanceof HTMLElement && before.isConnected) before.focus();
    };
  }, [exports]);
  useEffect(() => {
    if (kinds) box.current?.querySelector("button")?.focus();
  }, [kinds]);
  const told = exports.told.value;
  return (
    <section
      class="export-choice"
      aria-label={`Export ${titleOf(head)}`}
      aria-busy={exports.busy.value}
      ref={box}
    >
      <ul>
        {kinds?.map((kind) => (
          <KindRow key={kind} exports={exports} kind={kind} />
        ))}
      </ul>
      <div class="export-foot">
        <p role={told?.kind === "problem" ? "alert" : "status"} class="export-told">
          {told?.sentence ?? ""}
        </p>
        <button
          type="button"
          class="plain"
          onClick={() => {
            workplace.exporting.value = null;
          }}
        >
          Close
        </button>
      </div>
    </section>
  );
}

function KindRow({ exports, kind }: { readonly exports: Exports; readonly kind: ExportKind }) {
  const { name, what } = ABOUT[kind];
  const busy = exports.busy.value;
  return (
    <li>
      <div>
        <strong>{name}</strong>
        <span>{what}</span>
      </div>
      <div class="row-buttons">
        <button
          type="button"
          aria-label={`Save: ${name}`}
          aria-disabled={busy}
          onClick={() => void exports.save(kind)}
        >
          Save
        </button>
        {exports.canShare(kind) && (
          <button
            type="button"
            aria-label={`Share: ${name}`}
            aria-disabled={busy}
            onClick={() => void exports.share(kind)}
          >
            Share
          </button>
        )}
      </div>
    </li>
  );
}
