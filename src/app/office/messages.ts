import type { ExportKind } from "./export-kinds.ts";
import type { Told } from "./take-in.ts";

/** To the office's worker. */
export type ToOffice =
  | { readonly kind: "take"; readonly files: readonly File[] }
  /** Ends the taking in that runs; what was taken in stays. */
  | { readonly kind: "stop" }
  | { readonly kind: "judge-anew"; readonly ids: readonly string[] }
  | { readonly kind: "export"; readonly what: ExportKind; readonly ids: readonly string[] };

/** From the office's worker. */
export type FromOffice =
  | { readonly kind: "told"; readonly told: Told }
  | { readonly kind: "taken"; readonly stopped: boolean }
  | { readonly kind: "judged-anew" }
  | { readonly kind: "exported"; readonly file: Blob }
  /** What was asked for last could not be done. */
  | { readonly kind: "failed"; readonly reason: string };
