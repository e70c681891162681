import type { Notebook } from "../../device/notebook/notebook.ts";
import type { HandedRow } from "../../device/notebook/tables.ts";

/**
 * Notes what was handed over as a file that can bring it back. Never rejects: the file is out already, on a full disk above all, and
 * where it cannot be noted nothing is lost but that the reminder comes back.
 */
export async function noteHanded(
  notebook: Pick<Notebook, "markHanded">,
  rows: readonly HandedRow[],
): Promise<void> {
  await notebook.markHanded(rows).catch(() => undefined);
}
