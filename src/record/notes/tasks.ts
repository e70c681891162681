import { MOST_TASKS, type Span, type Task } from "../../visit/task.ts";
import { actionAt, isPartedVerb } from "./actions.ts";
import { asideAt, isQuestion } from "./aside.ts";
import { checkAt } from "./check-done.ts";
import { conditionsOf } from "./condition.ts";
import { duesOf } from "./dues.ts";
import { type Found, normAt, type Reading, type Scan, verbAt } from "./found.ts";
import { haveDoneAt } from "./have-done.ts";
import { apartEach } from "./lists.ts";
import { backAt, doItAt, getAt, needAt, seeAt, visitAt } from "./needs.ts";
import { partedAt } from "./parted.ts";
import { priceAt } from "./price.ts";
import { isRefused } from "./refused.ts";
import { roleOf } from "./roles.ts";
import type { Sentence } from "./thing.ts";
import { toldTo } from "./told.ts";
import { type Carried, verbTask } from "./verbs.ts";
import { CONJUNCTIONS, NEEDS } from "./vocabulary.ts";
import { type When, whensOf } from "./when.ts";
import { plainWords, type Word, wordsOf } from "./words.ts";

/**
 * What a note asks for and says was done, from its words alone; in their order. `at` (ISO 8601) and `zone` (IANA; null is UTC)
 * say when and where it was said: days are counted from there. What is denied, asked, only possible, or wished by somebody
 * else gives nothing: rather nothing than something invented. Never throws.
 */
export function tasksOf(note: string, at: string, zone: string | null): Task[] {
  const text = note.slice(0, MOST_READ);
  if (!mayAsk(plainWords(text))) return [];
  const words = wordsOf(text);
  const capitals = words.filter((word) => /^\p{Lu}/u.test(word.text)).length;
  const hasNames = capitals * 2 < words.length;
  const named = whensOf(text, at, zone);
  const conditions = conditionsOf({ words, hasNames, isWhen: within(words, named) }).map(
    ({ start, end }): When => ({
      day: null,
      from: words[start]?.from ?? 0,
      to: words[end - 1]?.to ?? 0,
      isBehind: words[start]?.stop === "" && !CONJUNCTIONS.has(words[start - 1]?.norm ?? ""),
    }),
  );
  const whens = [...named, ...conditions].sort((a, b) => a.from - b.from);
  const s: Sentence = { words, isWhen: within(words, whens), hasNames };
  const found: Found[] = [];
  for (const { start, end } of sentences(words)) {
    if (found.length >= MOST_TASKS) break;
    read({ ...s, text, start, end, taken: start, found }, found);
  }
  const dues = duesOf(s, found, whens);
  return found
    .flatMap((one, index) => apartEach(s, one).map((part) => taskOf(text, words, part, dues[index] ?? null)))
    .slice(0, MOST_TASKS);
}

/** Whether a word is of what says when. */
function within(words: readonly Word[], whens: readonly When[]): (place: number) => boolean {
  const isOf = words.map((word) => whens.some(({ from, to }) => word.from < to && word.to > from));
  return (place) => isOf[place] ?? false;
}

/** What comes after so many letters is read no more: nobody dictates that much. */
const MOST_READ = 4000;

const MAY_ASK =
  /^(?:needed|required|back|do|due|visit|follow|follow-up|followup|revisit|second|repeat|further|return|quote|quotation|price|estimate|comeback|next|see|try|did|have|get|put|asked|call|due)$/;

/** Most notes ask for nothing: then their words need no tags, and no days need to be looked for. */
function mayAsk(words: readonly string[]): boolean {
  return words.some(
    (word, place) =>
      NEEDS.has(word) ||
      isPartedVerb(word) ||
      MAY_ASK.test(word) ||
      actionAt((ahead) => words[place + ahead]) !== null,
  );
}

function sentences(words: readonly Word[]): { readonly start: number; readonly end: number }[] {
  const starts = words.flatMap(({ stop }, place) => (stop === "." ? [place] : []));
  return starts.map((start, index) => ({ start, end: starts[index + 1] ?? words.length }));
}

/** What one sentence asks for, added to what was found before. */
function read(sentence: Scan, found: Found[]): void {
  if (isQuestion(sentence)) return;
  let { taken } = sentence;
  /** Before this place nothing is taken in. */
  let deadTo = sentence.start;
  let carried: Carried = NOTHING_CARRIED;
  for (let place = sentence.start; place < sentence.end; place++) {
    const isNewClause = sentence.words[place]?.stop !== "" || /^(?:but|then)$/.test(normAt(sentence, place));
    if (isNewClause) carried = NOTHING_CARRIED;
    if (place < deadTo || sentence.isWhen(place)) continue;
    const scan = { ...sentence, taken };
    if (isRefused(scan, place, found.at(-1))) {
      found.pop();
      carried = { ...NOTHING_CARRIED, denied: true };
      continue;
    }
    const aside = asideAt(scan, place);
    if (aside) {
      if (aside.isLastPerhaps && isLastPerhaps(scan, found.at(-1), place)) found.pop();
      if (aside.request) found.push(aside.request);
      deadTo = aside.to;
      continue;
    }
    const one = readingAt(scan, place, carried);
    if (one === "denied") carried = { ...carried, denied: true };
    else if (one === "others") carried = { ...carried, others: true };
    else if (one) {
      if (isMadeUp(found.at(-1), one)) found.pop();
      found.push(one);
      carried = NOTHING_CARRIED;
      if (one.action === "tell" || one.action === "call") deadTo = toldTo(scan, one.last);
      place = Math.max(place, one.last - 1);
      taken = Math.max(taken, one.last);
    }
  }
}

const NOTHING_CARRIED: Carried = { denied: false, others: false };

function readingAt(scan: Scan, place: number, carried: Carried): Reading {
  const visit = visitAt(scan, place);
  if (visit) return visit;
  const check = checkAt(scan, place);
  if (check) return check;
  const price = priceAt(scan, place);
  if (price) return price;
  const have = haveDoneAt(scan, place);
  if (have) return have;
  const act = verbAt(scan, place);
  if (act && place + act.length <= scan.end) return verbTask(scan, place, act, carried);
  const parted = partedAt(scan, place);
  if (parted) return verbTask(scan, place, parted.act, carried, parted.particle);
  return (
    needAt(scan, place) ??
    getAt(scan, place) ??
    backAt(scan, place) ??
    seeAt(scan, place) ??
    doItAt(scan, place)
  );
}

/** "replace it if it leaks": the last task holds only perhaps, where nothing of another one stands between. */
function isLastPerhaps(scan: Scan, last: Found | undefined, place: number): boolean {
  if (!last || last.done || last.first < scan.start || last.last !== scan.taken) return false;
  for (let at = scan.taken; at < place; at++)
    if (!scan.isWhen(at) && !/^(?:but|only|just|again|by|at|and)$/.test(normAt(scan, at))) return false;
  return true;
}

/** "forgot to order the fan, ordered it today": it was done after all. */
function isMadeUp(last: Found | undefined, one: Found): boolean {
  return (
    one.done &&
    last !== undefined &&
    !last.done &&
    one.action === last.action &&
    one.thing !== null &&
    one.thing.start === last.thing?.start
  );
}

const MOST_LETTERS = 200;

function taskOf(
  text: string,
  words: readonly Word[],
  { action, start, end, thing, who, done }: Found,
  when: When | null,
): Task {
  const span = (from: number, to: number): Span => ({
    from: words[from]?.from ?? 0,
    to: words[to - 1]?.to ?? 1,
  });
  const said = thing && span(thing.start, thing.end);
  const role = who === null ? null : roleOf(words[who]?.norm ?? "");
  return {
    action: { value: action, span: span(start, end) },
    thing:
      said && said.to - said.from <= MOST_LETTERS
        ? { value: text.slice(said.from, said.to), span: said }
        : null,
    due: when && !done ? { value: when.day, span: { from: when.from, to: when.to } } : null,
    who: role && who !== null ? { value: role, span: span(who, who + 1) } : null,
    done,
  };
}
