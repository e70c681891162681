import type { Details } from "../../visit/details.ts";
import { technicianWords } from "../technician-words.ts";
import { type Fact, fact } from "./parts.ts";

/** Who did the work; a name without a licence or registration number is plainly so. */
export function technicianFact(details: Details): Fact {
  const words = technicianWords(details);
  if (words === "") return fact("Technician", "not given");
  return fact(
    "Technician",
    words,
    details.licence.trim() === "" ? "licence or registration number not given" : "",
  );
}
