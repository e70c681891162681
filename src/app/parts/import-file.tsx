import type { Workplace } from "../workplace.ts";

/** Takes in a limits sheet or a visit from a file. */
export function ImportFile({ workplace }: { readonly workplace: Workplace }) {
  const take = async (input: HTMLInputElement) => {
    const file = input.files?.[0];
    // Emptied at once, so that the same file, mended, can be chosen again.
    if (file) await workplace.importFile(file);
    input.value = "";
  };
  return (
    <section class="strip" aria-label="Files">
      <h2>Bring in a file</h2>
      <label class="file">
        <span>A limits sheet or an exported visit (JSON)</span>
        <input
          type="file"
          accept=".json,application/json"
          onChange={(event) => void take(event.currentTarget)}
        />
      </label>
    </section>
  );
}
