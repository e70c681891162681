import { quantityOf, refusal } from "../measure/quantity.ts";
import { shownUnit } from "../measure/unit.ts";
import { Entry, type Reading } from "../visit/entry.ts";
import { found, type Problem } from "./problem.ts";

/**
 * What the types of a visit cannot say: places without gaps, ids given once, corrections that point back at an entry
 * there is, values that can be measured. Takes the raw entries, so that one broken entry hides nothing of the others;
 * `read` says what a raw entry is, null where it is none. Candidates inside an unsure entry are what may have been meant,
 * not readings, and are not held to the bounds.
 */
export function visitProblems(
  entries: readonly unknown[],
  read: (raw: unknown, place: number) => Entry | null = readEntry,
): Problem[] {
  const problems: Problem[] = [];
  const seen = new Map<string, number>();
  entries.forEach((raw, place) => {
    const at = `entries[${place}]`;
    const id = idOf(raw);
    const first = id === null ? undefined : seen.get(id);
    if (first !== undefined)
      problem(`${at}.id`, `Expected an id of its own, found ${found(id)} of entries[${first}].`);
    const entry = read(raw, place);
    if (entry) check(entry, at, place);
    if (id !== null && first === undefined) seen.set(id, place);
  });
  return problems;

  function problem(path: string, message: string): void {
    problems.push({ path, message });
  }

  function check({ seq, body }: Entry, at: string, place: number): void {
    if (seq !== place) problem(`${at}.seq`, `Expected ${place}, as places go up without gaps, found ${seq}.`);
    if (body.kind === "reading") value(body, `${at}.body`);
    if (body.kind === "replace" && body.with.kind === "reading") value(body.with, `${at}.body.with`);
    if ("target" in body && !seen.has(body.target))
      problem(`${at}.body.target`, `Expected the id of an earlier entry, found ${found(body.target)}.`);
  }

  function value(reading: Reading, at: string): void {
    const quantity = quantityOf(reading.quantity);
    const why = refusal(reading.quantity, reading.value, reading.unit);
    if (why === "unit")
      problem(
        `${at}.unit`,
        `Expected a unit of ${quantity.name} (${quantity.units.join(", ")}), found ${reading.unit}.`,
      );
    if (why === "bounds") {
      const range = `${quantity.min} to ${quantity.max} ${shownUnit(quantity.units[0])}`;
      problem(
        `${at}.value`,
        `Expected ${quantity.name} from ${range}, found ${reading.value} ${shownUnit(reading.unit)}.`,
      );
    }
  }
}

function readEntry(raw: unknown): Entry | null {
  return Entry.safeParse(raw).data ?? null;
}

function idOf(raw: unknown): string | null {
  return typeof raw === "object" && raw !== null && "id" in raw && typeof raw.id === "string" ? raw.id : null;
}
