import { quantityOf, refusal } from "../measure/quantity.ts";
import { shownUnit } from "../measure/unit.ts";
import { Entry, type EntryBody, type Reading } from "../visit/entry.ts";
import { isWithin } from "../visit/task.ts";
import { found, type Problem } from "./problem.ts";

/**
 * What the types of a visit cannot say: places without gaps, ids given once, corrections that point back at an entry
 * there is, tasks of words that their note has, values that can be measured. Takes the raw entries, so that one broken
 * entry hides nothing of the others; `read` says what a raw entry is, null where it is none. Candidates inside an unsure
 * entry are what may have been meant, not readings, and are not held to the bounds.
 */
export function visitProblems(
  entries: readonly unknown[],
  read: (raw: unknown, place: number) => Entry | null = readEntry,
): Problem[] {
  const problems: Problem[] = [];
  const seen = new Map<string, number>();
  /** The texts of the notes so far, by id, as they stand. */
  const notes = new Map<string, string>();
  entries.forEach((raw, place) => {
    const at = `entries[${place}]`;
    const id = idOf(raw);
    const first = id === null ? undefined : seen.get(id);
    if (first !== undefined)
      problem(`${at}.id`, `Expected an id of its own, found ${found(id)} of entries[${first}].`);
    const entry = read(raw, place);
    if (entry) {
      check(entry, at, place);
      keepNote(entry);
    }
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
    else if (body.kind === "tasks") tasks(body, `${at}.body`);
  }

  function keepNote({ id, body }: Entry): void {
    if (body.kind === "note") notes.set(id, body.text);
    if (body.kind !== "replace") return;
    if (body.with.kind === "note") notes.set(body.target, body.with.text);
    else notes.delete(body.target);
  }

  function tasks(body: Extract<EntryBody, { kind: "tasks" }>, at: string): void {
    const text = notes.get(body.target);
    if (text === undefined) {
      problem(`${at}.target`, `Expected the id of a note, found ${found(body.target)}, which is none.`);
      return;
    }
    body.tasks.forEach((task, place) => {
      if (!isWithin(task, text))
        problem(
          `${at}.tasks[${place}]`,
          `Expected spans in the note's ${text.length} letters, found one beyond.`,
        );
    });
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
