import type { OfficeStore } from "../../device/office/store.ts";
import type { ExportKind } from "./export-kinds.ts";

/** So many visits are read together. */
const TOGETHER = 100;

/** The file of an export of what stands of visits, in their order. Rejects where the store does. */
export async function exported(
  what: ExportKind,
  ids: readonly string[],
  store: Pick<OfficeStore, "standing">,
): Promise<Blob> {
  switch (what) {
    case "bundles":
      return bundles(ids, store);
  }
}

async function bundles(ids: readonly string[], store: Pick<OfficeStore, "standing">): Promise<Blob> {
  const parts: string[] = [];
  for (let from = 0; from < ids.length; from += TOGETHER) {
    const texts = await store.standing(ids.slice(from, from + TOGETHER));
    parts.push(...texts.map((text) => `${text}\n`));
  }
  return new Blob(parts, { type: "application/jsonl" });
}
