import { type Warned, warnedIn } from "../../judge/raised.ts";
import { harmless, shortText } from "../../measure/harmless.ts";
import { isoDay, knownZone } from "../../measure/zone.ts";
import { foldVisit } from "../../visit/fold.ts";
import type { VisitState } from "../../visit/state.ts";
import type { Visit } from "../../visit/visit.ts";
import { CAUTIONS } from "../cautions.ts";
import type { Examined } from "../integrity/finding.ts";
import { logWords } from "../integrity/words.ts";
import { notesOf } from "../notes/notes.ts";
import { openInShort, stillOpen } from "../open.ts";
import { PROGRAM } from "../program.ts";
import { traceOf } from "../trace.ts";
import { clockTime, dayTime, FUEL_NAMES, shownDay, sourceOf } from "../wording.ts";
import { changedBlocks } from "./changed.ts";
import { closingBlocks } from "./closing.ts";
import { derivedBlocks } from "./derived.ts";
import { instrumentFacts } from "./instrument.ts";
import { alteredNotice, logBlocks } from "./log.ts";
import { pressureBlocks, readingBlocks } from "./measured.ts";
import { noteBlocks } from "./notes.ts";
import { type Block, type Fact, fact, type Report, SECTION_IDS, type SectionId } from "./parts.ts";
import { technicianFact } from "./technician.ts";
import { turnBlocks } from "./turns.ts";
import { warningBlocks } from "./warnings.ts";

/**
 * The record of a visit: plain data for the screen, the print and the PDF file. Pure: `now` (ISO 8601) is when it is made;
 * `examined` is what was found of its log; `warned` what was warned of in it, worked out here where it is not known yet.
 */
export function reportOf(
  visit: Visit,
  now: string,
  examined: Examined,
  warned: Warned = warnedIn(visit),
): Report {
  const state = foldVisit(visit);
  const { head } = visit;
  const open = stillOpen(state, warned, now);
  const trace = traceOf(state);
  const log = logWords(visit, examined);
  const facts = (rows: readonly Fact[]): readonly Block[] => [{ kind: "facts", name: "", rows }];
  const blocks: Readonly<Record<SectionId, readonly Block[]>> = {
    appliance: facts(applianceFacts(state)),
    visit: facts(visitFacts(visit, state)),
    instrument: facts(instrumentFacts(state.details.instrument, head.startedAt, head.zone)),
    review: facts([reviewFact(visit, state)]),
    open: openBlocks(open),
    "gas-pressure": pressureBlocks(state, now),
    readings: readingBlocks(state, now),
    turns: turnBlocks(state),
    warnings: warningBlocks(state, warned),
    closing: closingBlocks(state),
    changed: changedBlocks(visit, state),
    notes: noteBlocks(notesOf(state), head.zone),
    derived: derivedBlocks(state, now),
    trace: trace
      ? [{ kind: "trace", trace, zone: head.zone && knownZone(head.zone) }]
      : [{ kind: "text", text: "Too little was read to draw a trace." }],
    log: logBlocks(log),
    signatures: [{ kind: "signatures", names: ["Technician, day", "For the owner, day"] }],
    cautions: [{ kind: "list", name: "", items: CAUTIONS }],
  };
  const made = `${dayTime(now, head.zone)} ${knownZone(head.zone)}`;
  return {
    heading: "Visit record",
    name: shortText(head.title || head.sheet?.title || "Visit without a limits sheet", NAME_LETTERS),
    stand: openInShort(state.finished, open) || "Finished; nothing is open.",
    notice: alteredNotice(log),
    units: head.units,
    program: PROGRAM,
    sections: SECTION_IDS.map((id) => ({ id, name: NAMES[id], blocks: blocks[id] })),
    foot: [
      "This is a record of what was said and logged. It is not a certificate.",
      `${PROGRAM}, format ${visit.format}, visit ${shortText(head.id, 60)}, ${visit.entries.length} entries, made ${made}.`,
    ],
  };
}

const NAMES: Readonly<Record<SectionId, string>> = {
  appliance: "Appliance",
  visit: "Visit",
  instrument: "Instrument",
  review: "Review",
  open: "Still open",
  "gas-pressure": "Gas pressure",
  readings: "As found and as left",
  turns: "Turns of the screws",
  warnings: "Warnings",
  closing: "Closing checks",
  changed: "Struck, mended, changed",
  notes: "Notes and follow-ups",
  derived: "Derived figures, as left",
  trace: "CO2 and CO over the visit",
  log: "Log",
  signatures: "Signed",
  cautions: "Cautions",
};

const NAME_LETTERS = 100;
const SOURCE_LETTERS = 160;

function applianceFacts({ head, details }: VisitState): Fact[] {
  const { sheet } = head;
  return [
    fact("Appliance number", harmless(details.appliance) || "not given"),
    fact("Place", harmless(details.place) || "not given"),
    fact("Gas", FUEL_NAMES[head.fuel]),
    sheet
      ? fact("Limits sheet", shortText(sheet.title, NAME_LETTERS), shortText(sourceOf(sheet), SOURCE_LETTERS))
      : fact("Limits sheet", "none: nothing was judged"),
  ];
}

function visitFacts({ head, entries }: Visit, { details, setBacks }: VisitState): Fact[] {
  const { startedAt, zone } = head;
  const work = entries.findLast(
    ({ body }) => body.kind !== "details" && body.kind !== "tasks" && body.kind !== "reviewed",
  );
  const last = work?.at ?? startedAt;
  const sameDay = isoDay(startedAt, zone) === isoDay(last, zone);
  const end = sameDay ? clockTime(last, zone) : dayTime(last, zone);
  return [
    fact("Day", shownDay(isoDay(startedAt, zone))),
    fact("Begun, last entry", `${clockTime(startedAt, zone)}, ${end}`, knownZone(zone)),
    ...setBackFacts(setBacks, zone),
    technicianFact(details),
  ];
}

/** Where times run backwards: said plainly, for durations across that place mean nothing. */
function setBackFacts(setBacks: VisitState["setBacks"], zone: string | null): Fact[] {
  if (setBacks.length === 0) return [];
  const places = setBacks
    .slice(0, SET_BACKS)
    .map(({ seq, at, before }) => `at entry ${seq + 1}, ${dayTime(at, zone)} after ${dayTime(before, zone)}`);
  const left = setBacks.length - SET_BACKS;
  return [
    fact(
      "Times run backwards",
      `${places.join("; ")}${left > 0 ? `; and ${left} times more` : ""}`,
      "the clock of the device was set back; the order is that of the entries",
    ),
  ];
}

/** So many places are told. */
const SET_BACKS = 5;

function reviewFact({ entries, head }: Visit, { reviewed }: VisitState): Fact {
  if (reviewed) return fact("Found right by", `${harmless(reviewed.by)}, ${dayTime(reviewed.at, head.zone)}`);
  const before = entries.findLast(({ body }) => body.kind === "reviewed");
  const note =
    before?.body.kind === "reviewed"
      ? `Found right by ${harmless(before.body.by)}, ${dayTime(before.at, head.zone)}, and changed since`
      : "";
  return fact("Found right by", "nobody: not reviewed", note);
}

function openBlocks(open: ReturnType<typeof stillOpen>): Block[] {
  if (open.length === 0) return [{ kind: "text", text: "Nothing is open." }];
  return open.map(({ name, sentences }) => ({
    kind: "list",
    name,
    items: sentences.map((text) => shortText(text, SENTENCE_LETTERS)),
  }));
}

const SENTENCE_LETTERS = 200;
