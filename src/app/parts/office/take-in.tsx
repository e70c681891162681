import { takesFolders } from "../../../device/office/files.ts";
import type { Office } from "../../office/office.ts";

interface TakeInProps {
  readonly office: Office;
  /** Whether something is held over the page. */
  readonly over: boolean;
}

/** Where files are handed over: dropped anywhere on the page, or chosen. */
export function TakeIn({ office, over }: TakeInProps) {
  const running = office.taking.value?.stand === "running";
  const take = async (input: HTMLInputElement) => {
    const files = [...(input.files ?? [])];
    // Emptied at once, so that the same files can be chosen again.
    input.value = "";
    await office.takeIn(files);
  };
  return (
    <section class={`take-in ${over ? "take-in-over" : ""}`} aria-labelledby="take-in-heading">
      <h2 id="take-in-heading">Take in visits</h2>
      <p>
        Drop exported visits here, as many as you like, or whole folders of them. They stay on this device,
        apart from the visits of its own notebook. A backup, made and restored at the start, has both.
      </p>
      <div class="take-in-ways">
        <label class="file">
          <span>Files (JSON, or JSON Lines with a visit a line)</span>
          <input
            type="file"
            multiple
            accept=".json,.jsonl,.ndjson,application/json"
            disabled={running}
            onChange={(event) => void take(event.currentTarget)}
          />
        </label>
        {takesFolders() && (
          <label class="file">
            <span>A folder</span>
            <input
              type="file"
              ref={(input) => input?.setAttribute("webkitdirectory", "")}
              disabled={running}
              onChange={(event) => void take(event.currentTarget)}
            />
          </label>
        )}
      </div>
    </section>
  );
}
