import type { Notebook } from "../../device/notebook/notebook.ts";
import { troubleOf } from "../../device/notebook/trouble.ts";
import type { Visit } from "../../visit/visit.ts";

/**
 * Stores a visit that was gone from the disk, as one from a file: no claim is made any more of what was logged on this device.
 * Rejects where nothing was stored.
 */
export async function storeAnew(
  notebook: Pick<Notebook, "addVisit" | "visit" | "extend">,
  visit: Visit,
): Promise<void> {
  try {
    await notebook.addVisit(visit, "file");
  } catch (error) {
    if (troubleOf(error) !== "taken") throw error;
    // Another window did so first, perhaps without the last that was answered here. What it has more, the next phrase takes in.
    const { entries } = await notebook.visit(visit.head.id);
    if (entries.length < visit.entries.length) await notebook.extend(visit);
  }
}
