import { printPage } from "../../../device/print.ts";
import type { Workplace } from "../../workplace.ts";

interface RecordButtonsProps {
  readonly workplace: Workplace;
  /** Of the button that saves it. */
  readonly class?: string;
}

/** What the record that is shown can be made into: paper, a file, something shared where the platform can. */
export function RecordButtons({ workplace, class: look }: RecordButtonsProps) {
  const { records } = workplace;
  const busy = records.busy.value;
  return (
    <>
      <button type="button" onClick={printPage}>
        Print
      </button>
      <button type="button" class={look} aria-disabled={busy} onClick={() => void workplace.saveRecord()}>
        Save as PDF
      </button>
      {records.canShare && (
        <button type="button" aria-disabled={busy} onClick={() => void workplace.shareRecord()}>
          Share
        </button>
      )}
    </>
  );
}

export function RecordBusy({ workplace }: { readonly workplace: Workplace }) {
  return (
    <p class="record-busy" role="status">
      {workplace.records.busy.value ? "Making the PDF file …" : ""}
    </p>
  );
}
