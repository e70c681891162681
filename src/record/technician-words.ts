import { harmless } from "../measure/harmless.ts";
import type { Details } from "../visit/details.ts";

/** Who did the work, in one line: "Ada Quill, Millrace Heating, licence or registration number 0417"; "" where nothing is known. */
export function technicianWords({
  technician,
  licence,
  firm,
}: Pick<Details, "technician" | "licence" | "firm">): string {
  const [name, number, of] = [technician, licence, firm].map(harmless);
  const beside = [of, number && `licence or registration number ${number}`].filter(Boolean);
  return [name || (beside.length > 0 ? "name not given" : ""), ...beside].filter(Boolean).join(", ");
}
