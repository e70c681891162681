import fc from "fast-check";
import type { Task } from "../../../src/visit/task.ts";
import type { Visit } from "../../../src/visit/visit.ts";
import { anyVisit } from "../arbitrary.ts";

/** Pieces that files and the programs that open them stumble on. */
const PIECES = [
  "=1+1",
  '=HYPERLINK("http://example.invalid","x")',
  "+1",
  "-2",
  "@SUM(A1)",
  "＝1",
  "'=1",
  "''",
  ";=1",
  "|",
  "\t",
  "\r\n",
  "\r",
  "\n",
  '"',
  ",",
  ";",
  "\\",
  "\\n",
  " ",
  "\u00A0",
  "\uFEFF",
  "\u200B",
  "\0",
  "\u0001",
  "\u007F",
  "\u0085",
  "\uFFFD",
  "\uFFFE",
  "\uD800",
  "_x0041_",
  "_x005F_",
  "_x005f_x0041_",
  "<b>&amp;",
  "]]>",
  "END:VEVENT",
  "BEGIN:VALARM",
  "°äß",
  "🔥🧯",
  "CO2 nine point two",
  "constructor",
  "__proto__",
] as const;

/** Names that every object has: a table kept in one finds them without having put them in. */
export const OWN_NAMES = Object.getOwnPropertyNames(Object.prototype);

const anyPiece = fc.oneof(
  { weight: 3, arbitrary: fc.constantFrom(...PIECES) },
  fc.string({ unit: "binary", maxLength: 8 }),
);

/** Text of every sort, with much that is hostile. */
export const anyText: fc.Arbitrary<string> = fc.oneof(
  { weight: 9, arbitrary: fc.array(anyPiece, { maxLength: 8 }).map((pieces) => pieces.join("")) },
  fc.constantFrom(...OWN_NAMES),
);

const line = fc.string({ maxLength: 40 }).map((text) => text.replace(/\p{Cc}/gu, ""));

const anyTask: fc.Arbitrary<Task> = fc.record({
  action: fc.record({
    value: fc.constantFrom("replace", "call", "return", "other", "quote"),
    span: fc.constant(null),
  }),
  thing: fc.option(
    fc.record({ value: anyText.map((text) => `a${text}`.slice(0, 200)), span: fc.constant(null) }),
  ),
  due: fc.option(
    fc.record({
      value: fc.option(fc.constantFrom("2026-12-01", "2027-02-28", "2028-02-29", "1999-12-31")),
      span: fc.constant(null),
    }),
  ),
  who: fc.option(fc.record({ value: fc.constantFrom("customer", "office"), span: fc.constant(null) })),
  done: fc.boolean(),
});

/** A sound visit with hostile words wherever words may stand, details, and notes with tasks. */
export const anyHostileVisit: fc.Arbitrary<Visit> = fc
  .tuple(
    anyVisit,
    anyText,
    fc.array(anyText, { maxLength: 12 }),
    fc.record({ appliance: line, place: line, technician: line, licence: line, firm: line }),
    fc.array(fc.array(anyTask, { maxLength: 3 }), { maxLength: 12 }),
    fc.constantFrom(null, "Europe/Vienna", "America/St_Johns", "Nowhere/At_All"),
  )
  .map(([visit, title, texts, details, tasks, zone]) => {
    const entries = visit.entries.map((entry, place) => {
      const text = texts[place] ?? entry.phrase;
      const body = entry.body.kind === "note" ? { ...entry.body, text } : entry.body;
      return { ...entry, phrase: text, said: text, body };
    });
    const isNote = (id: string) =>
      entries.every(({ body }) => body.kind !== "replace" || body.target !== id || body.with.kind === "note");
    const more = entries.flatMap(({ id, body, at }, place) => {
      const rest = { at, engine: "typed" as const, phrase: "", said: "", confidence: 1 };
      return body.kind === "note" && isNote(id) && tasks[place]
        ? [{ ...rest, body: { kind: "tasks" as const, target: id, tasks: tasks[place] } }]
        : [];
    });
    const by = { at: visit.head.startedAt, engine: "typed" as const, phrase: "", said: "", confidence: 1 };
    const added = [
      ...more,
      { ...by, body: { kind: "details" as const, details: { ...details, instrument: null } } },
    ];
    return {
      ...visit,
      head: { ...visit.head, title: title.slice(0, 200), zone },
      entries: [
        ...entries,
        ...added.map((entry, place) => ({
          id: `x${place}`,
          seq: entries.length + place,
          ...entry,
        })),
      ],
    };
  });
