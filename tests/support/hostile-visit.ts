import type { Details } from "../../src/visit/details.ts";
import type { Entry, EntryBody } from "../../src/visit/entry.ts";
import type { Sheet } from "../../src/visit/sheet.ts";
import type { Visit } from "../../src/visit/visit.ts";
import { reviewVisit } from "./review-visit.ts";

/** What text from a file may try, each of which some reader, screen or program has once fallen for. */
export const TRICKS = {
  markup: `<img src=x onerror="globalThis.ran='img'"><script>globalThis.ran='script'</script>`,
  drawing: `<svg onload="globalThis.ran='svg'"><a href="javascript:globalThis.ran='link'">x</a></svg>`,
  quotes: `"'><b id=quotes>&lt;&amp;&#x202e;`,
  turned: "down\u202Egpj.exe\u2066\u200F",
  unseen: "a\u200B\u00AD\u{E0041}\u3164b",
  terminal: "\u001B[2J\u009B2J\u0007",
  lines: "one\r\ntwo\u2028three\tfour",
  formula: '=HYPERLINK("http://example.invalid","x")',
  calendar: "END:VEVENT\r\nBEGIN:VALARM\r\nTRIGGER:-PT1M",
  address: "javascript:globalThis.ran='address'",
  path: "../../etc/passwd\0.json",
  own: "__proto__",
  half: "\uD83D",
} as const;
export type Trick = keyof typeof TRICKS;
export const TRICK_NAMES = Object.keys(TRICKS) as Trick[];

/** All in one text, which fields cut at different lengths: once with what steers in front, once with what would run. */
export const STEERS_FIRST = [
  "turned",
  "unseen",
  "half",
  "terminal",
  "lines",
  "formula",
  "own",
  "path",
  "calendar",
]
  .map((name) => TRICKS[name as Trick])
  .concat(Object.values(TRICKS))
  .join(" ");
export const RUNS_FIRST = Object.values(TRICKS).join(" ");

/** As much as a field takes, without control characters where it takes none. */
const line = (text: string, most: number) => text.replace(/\p{Cc}/gu, "").slice(0, most);

/** A sheet with a trick in every field that takes text. */
export function hostileSheet(sheet: Sheet, trick: string): Sheet {
  const source = { ...sheet.source, document: trick, edition: trick, page: trick, enteredBy: trick };
  return { ...sheet, id: trick.toWellFormed().slice(0, 80), title: trick.slice(0, 120), source };
}

/** A sound visit with a trick wherever words, names or ids may stand. */
export function hostileVisit(trick: string): Visit {
  const base = reviewVisit();
  const { head } = base;
  const id = (own: string) => `${own}/${trick}`;
  const entries = base.entries.map((entry): Entry => {
    const rivals = entry.rivals?.map((rival) => ({ ...rival, text: trick }));
    return {
      ...entry,
      id: id(entry.id),
      phrase: `${entry.phrase} ${trick}`,
      said: `${entry.said} ${trick}`,
      ...(rivals ? { rivals } : {}),
      body: hostileBody(entry.body, trick, id),
    };
  });
  const details: Details = {
    appliance: line(trick, 80),
    place: line(trick, 120),
    technician: line(trick, 80),
    licence: line(trick, 80),
    firm: line(trick, 80),
    instrument: { name: line(trick, 80), serial: line(trick, 40), calibratedOn: "2026-02-01" },
  };
  const note = entries.find(({ body }) => body.kind === "note");
  const thing = { value: trick.slice(0, 200), span: null };
  const task = {
    action: { value: "order", span: null },
    thing,
    due: { value: null, span: null },
    who: null,
    done: false,
  } as const;
  const more: EntryBody[] = [
    { kind: "details", details },
    {
      kind: "tasks",
      target: note?.id ?? "",
      tasks: [task, { ...task, due: { value: "2026-12-01", span: null } }],
    },
    { kind: "reviewed", by: line(`A ${trick}`, 80) },
  ];
  const at = entries.at(-1)?.at ?? head.startedAt;
  const added = more.map((body, place): Entry => {
    const by = { at, engine: "typed", phrase: trick, said: trick, confidence: 1 } as const;
    return { ...by, id: id(`x${place}`), seq: entries.length + place, body };
  });
  const sheet = head.sheet && hostileSheet(head.sheet, trick);
  return {
    ...base,
    head: {
      ...head,
      id: id("v").toWellFormed().slice(0, 200),
      title: trick.slice(0, 200),
      zone: trick,
      sheet,
    },
    entries: [...entries, ...added],
  };
}

function hostileBody(body: EntryBody, trick: string, id: (own: string) => string): EntryBody {
  switch (body.kind) {
    case "note":
      return { ...body, text: `${body.text} ${trick}` };
    case "unsure":
      return { ...body, unsure: { ...body.unsure, text: trick, reason: `${body.unsure.reason} ${trick}` } };
    case "strike":
    case "replace":
    case "answer":
    case "tasks":
      return { ...body, target: id(body.target) };
    default:
      return body;
  }
}
