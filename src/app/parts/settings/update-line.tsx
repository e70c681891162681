import type { Installed } from "../../installed/installed.ts";

/** A quiet line where there is a newer version, with the button that puts it in place. */
export function UpdateLine({ installed }: { readonly installed: Installed }) {
  const update = installed.update.value;
  if (update.kind === "none") return null;
  return (
    <div class="update" role="status">
      <p>{update.kind === "put-off" ? update.why : "There is a newer version of Burnerside."}</p>
      {update.kind === "under-way" ? (
        <p>Fetching it …</p>
      ) : (
        <button type="button" class="plain" onClick={() => void installed.accept()}>
          Load the newer version
        </button>
      )}
    </div>
  );
}
