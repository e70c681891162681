import { EXPORTS } from "../../office/export-kinds.ts";
import type { Office } from "../../office/office.ts";
import { counted } from "../../office/words.ts";

/** What is shown, handed over as one file. */
export function Exports({ office }: { readonly office: Office }) {
  const shown = office.shown.value;
  const making = office.exporting.value;
  return (
    <section class="strip" aria-labelledby="exports-heading">
      <h2 id="exports-heading">Hand over what is shown</h2>
      <p>{counted(shown.length, "visit")}, each as it stands.</p>
      <div class="row-buttons">
        {EXPORTS.map(({ kind, name, file }) => (
          <button
            key={kind}
            type="button"
            disabled={making !== null || shown.length === 0}
            onClick={() =>
              void office.export(
                kind,
                shown.map(({ id }) => id),
                file(office.today),
              )
            }
          >
            {name}
          </button>
        ))}
      </div>
      <p role="status" class="making">
        {making === null ? "" : "Making the file …"}
      </p>
    </section>
  );
}
