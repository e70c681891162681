import { describe, expect, test } from "vitest";
import { noteOf, notesOf, tasksInWords } from "../../../src/record/notes/notes.ts";
import type { Amendment } from "../../../src/visit/by-hand.ts";
import type { Task } from "../../../src/visit/task.ts";
import { byHand, mend, type OfPlace } from "../../support/by-hand.ts";
import { shortTask } from "../../support/notes.ts";

// Visits of the helper begin on 2026-11-25 at 09:00 UTC, a Wednesday.
const SAID = [
  "high fire CO2 9.2",
  "note order a fan and come back tomorrow",
  "note all tidy",
  "CO2 ninety two percent",
];

const task = (value: Task["action"]["value"]): Task => ({
  action: { value, span: null },
  thing: null,
  due: null,
  who: null,
  done: false,
});

const short = (amendments: readonly (OfPlace | Amendment)[], zone: string | null = "UTC") =>
  notesOf(byHand(SAID, amendments, { zone }).state).map(
    ({ id, text, tasks, by }) => `${id} ${by}: ${tasks.map((one) => shortTask(one, text)).join("; ") || "-"}`,
  );

describe("the notes of a visit", () => {
  const words = "e1 words: order=fan; return@2026-11-26";
  test.each<[what: string, amendments: (OfPlace | Amendment)[], notes: string[]]>([
    ["by their words", [], [words, "e2 words: -"]],
    ["struck", [{ kind: "strike", of: 1 }], ["e2 words: -"]],
    [
      "struck and put back",
      [
        { kind: "strike", of: 1 },
        { kind: "put-back", of: 1 },
      ],
      [words, "e2 words: -"],
    ],
    ["mended", [mend(1, "clean the trap")], ["e1 words: clean=trap", "e2 words: -"]],
    ["by the reviewer", [{ kind: "tasks", id: "e2", tasks: [task("call")] }], [words, "e2 reviewer: call"]],
    ["none, by the reviewer", [{ kind: "tasks", id: "e1", tasks: [] }], ["e1 reviewer: -", "e2 words: -"]],
    [
      "by the reviewer, of words that are no more",
      [{ kind: "tasks", id: "e1", tasks: [] }, mend(1, "clean the trap")],
      ["e1 words: clean=trap", "e2 words: -"],
    ],
    [
      "told later, as of when it was said",
      [mend(3, "note come back tomorrow")],
      [words, "e2 words: -", "e3 words: return@2026-11-26"],
    ],
  ])("%s", (_, amendments, notes) => {
    expect(short(amendments)).toEqual(notes);
  });
  test("at the place of the visit", () => {
    expect(short([], "Pacific/Kiritimati")[0]).toBe("e1 words: order=fan; return@2026-11-26");
    expect(short([], "Pacific/Pago_Pago")[0]).toBe("e1 words: order=fan; return@2026-11-25");
    expect(short([], null)[0]).toBe("e1 words: order=fan; return@2026-11-26");
  });
  test("what the words say can always be had back", () => {
    const { state } = byHand(SAID, [{ kind: "tasks", id: "e1", tasks: [] }]);
    const item = state.items.find(({ id }) => id === "e1");
    if (!item) throw new Error("no note");
    expect(tasksInWords(state, item).map((one) => one.action.value)).toEqual(["order", "return"]);
    expect(noteOf(state, item)).toMatchObject({ by: "reviewer", tasks: [] });
  });
  test("each note is read once, however often it is asked for", () => {
    const first = byHand(SAID, []).state;
    const [one] = notesOf(first);
    const [again] = notesOf({ ...first, nextSeq: first.nextSeq + 1 });
    expect(one?.tasks).toBe(again?.tasks);
  });
});
