import { secondsBetween } from "../measure/instant.ts";
import { type Derived, derive, deriveNext } from "./derive.ts";
import { NO_DETAILS } from "./details.ts";
import type { Entry, EntryBody, ItemBody } from "./entry.ts";
import { isItemBody } from "./item-body.ts";
import { isSame, nextQuestions, saidAgain } from "./questions.ts";
import type { LoggedItem, OpenQuestion, SetBack, Settled, UnsureThing, VisitState } from "./state.ts";
import type { Visit, VisitHead } from "./visit.ts";

/** What a fold carries from entry to entry; the rest of a state is derived from its items. */
type Core = Omit<VisitState, keyof Derived>;

export function startCore(head: VisitHead): Core {
  return {
    head,
    nextSeq: 0,
    lastAt: null,
    setBacks: [],
    items: [],
    unsure: [],
    questions: [],
    answered: null,
    reviewed: null,
    details: NO_DETAILS,
    tasks: {},
  };
}

/** A visit before its first entry. */
export function startState(head: VisitHead): VisitState {
  return { ...startCore(head), ...derive([]) };
}

/** Visits are never changed, only made longer: each is folded once. */
const folded = new WeakMap<Visit, VisitState>();

/**
 * The visit's state: a pure fold of its entries, so that any moment can be replayed. An entry that is given again counts once.
 * Never throws.
 */
export function foldVisit(visit: Visit): VisitState {
  const known = folded.get(visit);
  if (known) return known;
  const core = newOf([], 0, visit.entries).reduce(nextCore, startCore(visit.head));
  const state = { ...core, ...derive(core.items) };
  folded.set(visit, state);
  return state;
}

/** The visit with more entries, folded on from where it stood; those that it has are not added again. */
export function withEntries(visit: Visit, entries: readonly Entry[]): Visit {
  const before = foldVisit(visit);
  const added = newOf(visit.entries, before.nextSeq, entries);
  if (added.length === 0) return visit;
  const { format, head } = visit;
  // What was said of the shorter log says nothing of this one.
  const longer: Visit = { format, head, entries: [...visit.entries, ...added] };
  folded.set(longer, after(before, added));
  return longer;
}

/**
 * Those of the entries that are not there yet, nor twice among themselves. Only one at a place that is taken can have been
 * given before: of a log that goes on, as nearly all do, no id is looked up.
 */
function newOf(before: readonly Entry[], nextSeq: number, entries: readonly Entry[]): readonly Entry[] {
  let next = nextSeq;
  let known: Set<string> | null = null;
  const added: Entry[] = [];
  for (const entry of entries) {
    const { id, seq } = entry;
    if (seq < next) {
      known ??= new Set([...before, ...added].map((each) => each.id));
      if (known.has(id)) continue;
    }
    known?.add(id);
    next = Math.max(next, seq + 1);
    added.push(entry);
  }
  return added;
}

/**
 * The state after one more entry. A strike or replacement whose target is unknown, and a second strike, change nothing; a
 * replacement of what was struck puts it back.
 */
export function step(state: VisitState, entry: Entry): VisitState {
  return after(state, [entry]);
}

/** The state after these entries, which it does not have yet. */
export function after(state: VisitState, entries: readonly Entry[]): VisitState {
  if (entries.length === 0) return state;
  const core = entries.reduce<Core>(nextCore, state);
  return { ...core, ...deriveNext(core.items, state) };
}

function nextCore(state: Core, entry: Entry): Core {
  const { id, at, phrase, body } = entry;
  const questions = nextQuestions(state, entry);
  return {
    head: state.head,
    nextSeq: Math.max(state.nextSeq, entry.seq + 1),
    lastAt: at,
    setBacks: nextSetBacks(state, entry),
    items: nextItems(state, entry),
    unsure: nextUnsure(state, questions, entry),
    questions,
    answered: body.kind === "answer" || isSame(state.answered, entry) ? { at, phrase } : null,
    reviewed: body.kind === "reviewed" ? { id, at, by: body.by } : null,
    details: body.kind === "details" ? body.details : state.details,
    tasks: nextTasks(state, body),
  };
}

/** By less than this clocks are put right all the time, and windows take turns, seconds. */
const PUT_RIGHT = 5;

function nextSetBacks({ lastAt, setBacks }: Core, { seq, at }: Entry): readonly SetBack[] {
  if (lastAt === null || secondsBetween(lastAt, at) > -PUT_RIGHT) return setBacks;
  return [...setBacks, { seq, at, before: lastAt }];
}

function nextItems({ items, unsure }: Core, entry: Entry): readonly LoggedItem[] {
  const { body } = entry;
  if (isItemBody(body)) return [...items, logged(entry, body)];
  switch (body.kind) {
    case "strike":
      return items.map((item) =>
        item.id === body.target && item.struckBy === null ? { ...item, struckBy: entry.id } : item,
      );
    case "replace": {
      const thing = unsure.find(({ id }) => id === body.target);
      if (thing && !items.some(({ id }) => id === body.target)) return told(items, thing, entry, body.with);
      return items.map((item) => (item.id === body.target ? replaced(item, body.with) : item));
    }
    case "unsure":
    case "answer":
    case "reviewed":
    case "details":
    case "tasks":
      return items;
  }
}

function nextTasks({ tasks, items }: Core, body: EntryBody): VisitState["tasks"] {
  if (body.kind === "tasks") return { ...tasks, [body.target]: body.tasks };
  if (body.kind !== "replace" || !Object.hasOwn(tasks, body.target)) return tasks;
  const before = items.find(({ id }) => id === body.target)?.body;
  if (JSON.stringify(before) === JSON.stringify(body.with)) return tasks;
  // Of another text they say nothing.
  const { [body.target]: _, ...others } = tasks;
  return others;
}

function logged(entry: Omit<LoggedItem, "body" | "history" | "struckBy">, body: ItemBody): LoggedItem {
  const { id, seq, at, said, confidence } = entry;
  return { id, seq, at, said, confidence, body, history: [], struckBy: null };
}

function replaced(item: LoggedItem, body: ItemBody): LoggedItem {
  // What is only confirmed or put back was never anything else.
  if (JSON.stringify(item.body) === JSON.stringify(body)) return { ...item, struckBy: null };
  return { ...item, body, history: [...item.history, item.body], struckBy: null };
}

/** With what an unsure thing was after all, at its time and place: what stands and how long it settled depend on the order. */
function told(
  items: readonly LoggedItem[],
  { id, seq, at, said }: UnsureThing,
  { confidence }: Entry,
  body: ItemBody,
): readonly LoggedItem[] {
  const next = items.findIndex((item) => item.seq > seq);
  const place = next < 0 ? items.length : next;
  return items.toSpliced(place, 0, logged({ id, seq, at, said, confidence }, body));
}

function nextUnsure(state: Core, questions: readonly OpenQuestion[], entry: Entry): readonly UnsureThing[] {
  const { id, seq, at, phrase, said, confidence, body } = entry;
  const settle = (target: string | null, how: Settled["how"]) =>
    target === null
      ? state.unsure
      : state.unsure.map((thing) => (thing.id === target ? { ...thing, settled: { by: id, how } } : thing));
  switch (body.kind) {
    case "unsure": {
      const before = settle(saidAgain(state, questions, entry), "said-again");
      return [...before, { id, seq, at, phrase, said, confidence, unsure: body.unsure, settled: null }];
    }
    case "answer":
      return settle(body.target, body.accepted ? "accepted" : "dropped");
    case "replace":
      return settle(body.target, "told");
    case "reading":
    case "firing":
    case "adjustment":
    case "note":
    case "check":
    case "mark":
    case "strike":
    case "reviewed":
    case "details":
    case "tasks":
      return settle(saidAgain(state, questions, entry), "said-again");
  }
}
