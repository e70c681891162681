import { harmless } from "../../../measure/harmless.ts";
import { shownDay } from "../../../record/wording.ts";
import { laterPart } from "../../later.tsx";
import type { Workplace } from "../../workplace.ts";
import type { RestorePart } from "../backup/restore-part.tsx";
import { Sentences } from "../sentences.tsx";

const Restore = laterPart<Parameters<typeof RestorePart>[0]>(
  async () => (await import("../backup/restore-part.tsx")).RestorePart,
  (_, failed) => (
    <p role="status">
      {failed ? "What restores a backup could not be loaded. Try again with a network." : "…"}
    </p>
  ),
);

/** Takes in a limits sheet, a visit or a backup from a file, and says beside the button what came of it. */
export function ImportFile({ workplace }: { readonly workplace: Workplace }) {
  const { intake } = workplace;
  const take = async (input: HTMLInputElement) => {
    const file = input.files?.[0];
    // Emptied at once, so that the same file, mended, can be chosen again.
    if (file) await intake.take(file);
    input.value = "";
  };
  return (
    <section class="strip" aria-label="Files">
      <h2>Bring in a file</h2>
      <label class="file">
        <span>A limits sheet, an exported visit or a backup</span>
        <input
          type="file"
          accept=".json,.jsonl,.gz,.locked,application/json,application/gzip,application/octet-stream"
          onChange={(event) => void take(event.currentTarget)}
        />
      </label>
      <CameOfIt workplace={workplace} />
    </section>
  );
}

function CameOfIt({ workplace }: { readonly workplace: Workplace }) {
  const { intake } = workplace;
  const outcome = intake.outcome.value;
  if (!outcome) return null;
  const close = (
    <button type="button" class="plain" onClick={() => intake.close()}>
      Close
    </button>
  );
  switch (outcome.kind) {
    case "kept":
      return (
        <div
          class={`notice ${outcome.altered ? "notice-problem" : "notice-done"}`}
          role={outcome.altered ? "alert" : "status"}
        >
          <ul>
            <li>{outcome.sentence}</li>
          </ul>
          {outcome.log.map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
          {close}
        </div>
      );
    case "refused":
      return (
        <div class="notice notice-problem" role="alert">
          <p>Nothing was taken in:</p>
          <Sentences sentences={outcome.sentences} />
          {close}
        </div>
      );
    case "backup":
      return <Restore restoring={outcome.restoring} onClose={() => intake.close()} />;
    case "taken":
      return (
        <div class="question" role="alertdialog" aria-label="This sheet is here already">
          <p>
            “{harmless(outcome.here.title)}” is here already, entered by{" "}
            {harmless(outcome.here.source.enteredBy)} on {shownDay(outcome.here.source.enteredOn)}. The file
            says something else under the same id: “{harmless(outcome.incoming.title)}”, entered by{" "}
            {harmless(outcome.incoming.source.enteredBy)} on {shownDay(outcome.incoming.source.enteredOn)}.
          </p>
          <div class="row-buttons">
            <button type="button" class="main-button" onClick={() => void intake.settle("both")}>
              Keep both
            </button>
            <button type="button" onClick={() => void intake.settle("replace")}>
              Put the file's in its place
            </button>
            <button type="button" onClick={() => intake.close()}>
              Leave it as it is
            </button>
          </div>
        </div>
      );
  }
}
