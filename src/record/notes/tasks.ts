import { MOST_TASKS, type Span, type Task, type TaskAction } from "../../visit/task.ts";
import { type ActionWord, actionAt } from "./actions.ts";
import { beginsVerb, governed, roleAt } from "./governed.ts";
import { hasVerb, type Sentence, type Thing, thingAfter, thingBefore } from "./thing.ts";
import { isOfTrade } from "./trade-words.ts";
import {
  DETERMINERS,
  IF,
  NEEDS,
  NEGATIVE,
  NEVER_THING,
  NEW,
  NOMINAL,
  NOT_NEEDED,
  OTHERS,
  PAPERS,
  PAST_TIME,
  POSSIBLE,
  QUESTION,
  REPORTS,
} from "./vocabulary.ts";
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
  const whens = whensOf(text, at, zone);
  return new Reader(text, words, whens).tasks().slice(0, MOST_TASKS);
}

/** What comes after so many letters is read no more: nobody dictates that much. */
const MOST_READ = 4000;

/** Most notes ask for nothing: then their words need no tags, and no days need to be looked for. */
function mayAsk(words: readonly string[]): boolean {
  return words.some(
    (word, place) =>
      NEEDS.has(word) || MAY_ASK.test(word) || actionAt((ahead) => words[place + ahead]) !== null,
  );
}

const MAY_ASK =
  /^(?:needed|required|back|do|visit|follow|follow-up|followup|revisit|second|repeat|further|return|quote|quotation|price|estimate)$/;

/** A task before its day is known, by places of words. */
interface Found {
  readonly action: TaskAction;
  readonly start: number;
  readonly end: number;
  readonly thing: Thing | null;
  readonly who: number | null;
  readonly done: boolean;
  /** All words that it came from. */
  readonly first: number;
  readonly last: number;
}

const MOST_LETTERS = 200;

class Reader {
  readonly #text: string;
  readonly #words: readonly Word[];
  readonly #whens: readonly When[];
  readonly #when: readonly (When | null)[];
  readonly #found: Found[] = [];
  readonly #s: Sentence;

  constructor(text: string, words: readonly Word[], whens: readonly When[]) {
    this.#text = text;
    this.#words = words;
    this.#whens = whens;
    this.#when = words.map((word) => whens.find(({ from, to }) => word.from < to && word.to > from) ?? null);
    const capitals = words.filter(({ text: word }) => /^\p{Lu}/u.test(word)).length;
    this.#s = {
      words,
      isWhen: (place) => Boolean(this.#when[place]),
      hasNames: capitals * 2 < words.length,
    };
  }

  tasks(): Task[] {
    const starts = this.#words.flatMap(({ stop }, place) => (stop === "." ? [place] : []));
    starts.forEach((start, index) => {
      const end = starts[index + 1] ?? this.#words.length;
      if (!this.#isQuestion(start, end)) this.#read(start, end);
    });
    const dues = this.#dues();
    return this.#found.map((found, index) => this.#task(found, dues[index] ?? null));
  }

  #norm(place: number): string {
    return this.#words[place]?.norm ?? "";
  }

  #isQuestion(start: number, end: number): boolean {
    const last = this.#words[end - 1];
    const next = this.#words[end]?.from ?? this.#text.length;
    if (last && this.#text.slice(last.to, next).includes("?")) return true;
    return (
      QUESTION.has(this.#norm(start)) &&
      /^(?:i|we|you|he|she|it|they|the|this|that)$/.test(this.#norm(start + 1))
    );
  }

  #read(start: number, end: number): void {
    /** Before this place nothing is taken in: what somebody else wishes, what holds only perhaps. */
    let deadTo = start;
    let taken = start;
    let denied = false;
    let others = false;
    for (let place = start; place < end; place++) {
      const word = this.#words[place];
      if (!word) break;
      if (place > start && (word.stop !== "" || /^(?:but|then)$/.test(word.norm))) {
        denied = false;
        others = false;
      }
      if (place < deadTo || this.#s.isWhen(place)) continue;
      const opened = this.#opens(place, start, end, taken);
      if (opened !== null) {
        deadTo = opened;
        continue;
      }
      const found = this.#at(place, start, end, taken, denied, others);
      if (found === "denied") denied = true;
      else if (found === "others") others = true;
      else if (found !== null) {
        this.#found.push(found);
        denied = false;
        others = false;
        if (found.action === "tell" || found.action === "call") deadTo = this.#toldTo(found.last, end);
        place = Math.max(place, found.last - 1);
        taken = Math.max(taken, found.last);
      }
    }
  }

  /** Where what begins here as a condition or a report ends; null where nothing of the kind does. */
  #opens(place: number, start: number, end: number, taken: number): number | null {
    const word = this.#norm(place);
    const next = this.#norm(place + 1);
    if (IF.has(word)) {
      if (word === "if" && /^(?:possible|you|we|i)$/.test(next)) return this.#clauseEnd(place + 1, end);
      this.#unless(place, taken);
      return end;
    }
    if (word === "in" && next === "case") return end;
    if (/^(?:when|whenever|while|until)$/.test(word)) return this.#clauseEnd(place + 1, end);
    if (word === "as" && /^(?:needed|required|necessary)$/.test(next)) return place + 2;
    const before = this.#norm(place - 1);
    const isBySomeone =
      place > start && (roleAt(this.#s, place - 1) !== null || OTHERS.has(before) || PAPERS.has(before));
    if (REPORTS.has(word) && (isBySomeone || /^(?:says|said|reckons|claims)$/.test(word))) {
      if (!isBySomeone || PAPERS.has(before)) return end;
      this.#quoteAsked(place, end);
      return end;
    }
    if (word === "would" && next === "like" && isBySomeone) {
      this.#quoteAsked(place + 1, end);
      return end;
    }
    if (word === "according") return end;
    if (PAPERS.has(word) && (NEEDS.has(next) || /^(?:calls|says)$/.test(next))) return end;
    return null;
  }

  /** "replace it if it leaks": only perhaps. What was said before that stands. */
  #unless(place: number, taken: number): void {
    const last = this.#found.at(-1);
    if (!last || last.done) return;
    for (let at = taken; at < place; at++)
      if (!this.#s.isWhen(at) && !/^(?:but|only|just|again|by|at|and)$/.test(this.#norm(at))) return;
    if (last.last === taken) this.#found.pop();
  }

  /** What somebody wishes is his own affair; a price asked for is one to be made. */
  #quoteAsked(place: number, end: number): void {
    for (let at = place + 1; at < Math.min(end, place + 5); at++) {
      if (!/^(?:quote|quotation|price|estimate|quoted)$/.test(this.#norm(at))) continue;
      const tie = /^(?:for|on)$/.test(this.#norm(at + 1)) ? at + 2 : null;
      const thing = tie === null ? null : thingAfter(this.#s, tie, this.#isVerb);
      const who = roleAt(this.#s, place - 1) === null ? null : place - 1;
      this.#found.push({
        action: "quote",
        start: at,
        end: at + 1,
        thing,
        who,
        done: false,
        first: place - 1,
        last: thing?.end ?? at + 1,
      });
      return;
    }
  }

  /** After "tell the caretaker": what he is told to do is not asked of us. */
  #toldTo(place: number, end: number): number {
    let at = place;
    while (
      at < end &&
      at < place + 3 &&
      this.#words[at]?.stop === "" &&
      !/^(?:to|that|not)$/.test(this.#norm(at))
    ) {
      if (actionAt((ahead) => this.#norm(at + ahead)) !== null || this.#norm(at) === "and") return place;
      at++;
    }
    if (!/^(?:to|that|not)$/.test(this.#norm(at)) || at >= end || at === place + 3) return place;
    for (at++; at < end; at++) {
      if (this.#words[at]?.stop !== "") return at;
      const act = actionAt((ahead) => this.#norm(at + ahead));
      if (this.#norm(at) === "and" && actionAt((ahead) => this.#norm(at + 1 + ahead))?.action === "return")
        return at;
      if (act?.forms.has("past") && !act.isCommon) return at;
    }
    return end;
  }

  #clauseEnd(place: number, end: number): number {
    let at = place;
    while (at < end && this.#words[at]?.stop === "") at++;
    return at;
  }

  readonly #isVerb = (place: number, inThing: boolean) => beginsVerb(this.#s, place, inThing);

  #at(
    place: number,
    start: number,
    end: number,
    taken: number,
    denied: boolean,
    others: boolean,
  ): Found | "denied" | "others" | null {
    const visit = this.#visit(place, start, end);
    if (visit !== null) return visit;
    const act = actionAt((ahead) => (place + ahead < end ? this.#words[place + ahead]?.norm : undefined));
    if (act) return this.#verb(place, act, start, end, taken, denied, others);
    const word = this.#norm(place);
    if (word === "do" && this.#norm(place + 1) === "with" && this.#norm(place - 1) === "could")
      return this.#needOf(place + 1);
    if (NEEDS.has(word)) return this.#need(place, start, end, taken);
    if (/^(?:needed|required)$/.test(word)) return this.#needed(place, start, taken);
    const isHere = /^(?:here|there)$/.test(this.#norm(place + 1));
    if (word === "back" && this.#s.isWhen(isHere ? place + 2 : place + 1)) {
      const before = this.#norm(place - 1);
      const isFree =
        place === start ||
        this.#words[place]?.stop !== "" ||
        /^(?:and|then|be)$/.test(before) ||
        place - 1 < taken;
      return isFree ? this.#made("return", place, isHere ? place + 2 : place + 1, null, null, false) : null;
    }
    return null;
  }

  #verb(
    place: number,
    act: ActionWord,
    start: number,
    end: number,
    taken: number,
    denied: boolean,
    others: boolean,
  ): Found | "denied" | "others" | null {
    const after = place + act.length;
    if (act.action === "tell" && this.#norm(place) === "let" && !this.#isLetKnow(place)) return null;
    const by = governed(this.#s, place, act, { start, taken });
    if (by.isDenied) return "denied";
    if (by.meant === "nothing") {
      const isPast = act.forms.has("past") && roleAt(this.#s, by.from - 1) !== null;
      return isPast ? "others" : null;
    }
    // "no need to come back or order", "the caretaker cleaned it and reset the pump".
    if (denied && /^(?:and|or|nor)$/.test(this.#norm(by.from - 1))) return "denied";
    if (others && by.meant === "done" && this.#norm(by.from - 1) === "and") return "others";
    if (by.meant === "done" && this.#isOld(place, start, end)) return null;
    const isReturn = act.action === "return";
    const isTold = act.action === "tell" || act.action === "call" || isReturn;
    const isAbout = act.action === "quote" && /^(?:for|on)$/.test(this.#norm(after));
    const told = (isTold && !isReturn) || isAbout ? this.#told(after, end) : null;
    let thing: Thing | null = null;
    let last = after;
    if (told) {
      thing = told.thing;
      last = told.last;
    } else if (by.isPassive) {
      thing = thingBefore(this.#s, by.from, Math.max(start, taken));
      if (thing && this.#isNone(thing, start)) return null;
      if (!thing && this.#isLeftOut(by.from)) thing = this.#meant(by.from, start);
      const helper = this.#words[after];
      if (helper?.norm === "by" && roleAt(this.#s, after + 1) !== null && by.meant === "done") return null;
    } else if (!isReturn) {
      thing = thingAfter(this.#s, after, this.#isVerb);
      last = thing?.end ?? after;
    }
    let it = after;
    while (DETERMINERS.has(this.#norm(it)) && it < after + 3) it++;
    const isIt = !by.isPassive && !thing && !isTold && /^(?:it|them|one|ones)$/.test(this.#norm(it));
    if (isIt) {
      thing = this.#meant(place, start);
      last = it + 1;
      if (/^(?:out|off|up|down|through|over|back)$/.test(this.#norm(last))) last++;
    }
    // "fan removed and cleaned".
    if (!thing && !isTold && by.meant === "done" && this.#norm(by.from - 1) === "and" && last === after)
      thing = this.#found.findLast(({ first, done }) => first >= start && done)?.thing ?? null;
    if (!thing && this.#norm(after) === "to" && !isTold) return null;
    const isAgain = this.#norm(after) === "again";
    const isDue = this.#s.isWhen(after) || (NEAR.test(this.#norm(after)) && this.#s.isWhen(after + 1));
    const isBare = after >= end || this.#words[after]?.stop !== "" || isDue || isAgain;
    if (!thing && !isTold && !by.isPassive && isBare && by.meant === "to-do")
      thing = this.#meant(place, start);
    const visit = thing && act.action === "other" && this.#isVisit(thing);
    if (visit && thing)
      return this.#made("return", thing.start, thing.end, null, by.who, by.meant === "done", place, last);
    if (!thing && !isTold && !isIt && !isAgain && !by.isPassive && by.meant === "to-do" && act.isCommon)
      return null;
    if (!thing && !by.isPassive && act.action === "other") return null;
    if (!thing && by.meant === "done" && !isIt && act.action !== "tell" && act.action !== "call") return null;
    if (by.meant === "done" && act.action === "return") return null;
    const byWhom = this.#byWhom(last);
    if (byWhom !== null) last = byWhom + 1;
    const who = told?.who ?? by.who ?? byWhom;
    return this.#made(
      act.action,
      place,
      after,
      thing,
      who,
      by.meant === "done",
      Math.min(by.isPassive && thing ? thing.start : by.from, place),
      last,
    );
  }

  /** "let him know". */
  #isLetKnow(place: number): boolean {
    return [2, 3, 4].some((ahead) => this.#norm(place + ahead) === "know");
  }

  /** Who is called or told, and about what. Names are passed over: people are kept by their roles only. */
  #told(place: number, end: number): { who: number | null; thing: Thing | null; last: number } {
    let who: number | null = null;
    let last = place;
    for (let at = place; at < Math.min(end, place + 9); at++) {
      const word = this.#norm(at);
      if (at > place && this.#words[at]?.stop !== "") break;
      if (this.#s.isWhen(at)) continue;
      if (/^(?:about|regarding|re|with|for)$/.test(word)) {
        const thing = thingAfter(this.#s, at + 1, this.#isVerb);
        return thing ? { who, thing, last: thing.end } : { who, thing, last };
      }
      if (NEVER_THING.has(word) && !/^(?:back|again|him|her|them|know)$/.test(word)) break;
      if (at > place && (/^(?:in|on|at|from|of)$/.test(word) || (who !== null && DETERMINERS.has(word))))
        break;
      const isVerb = actionAt((ahead) => this.#norm(at + ahead)) !== null;
      if (at > place && isVerb) break;
      if (who === null && roleAt(this.#s, at) !== null) who = at;
      last = at + 1;
    }
    return { who, thing: null, last };
  }

  /** "to be replaced by the plumber". */
  #byWhom(place: number): number | null {
    if (this.#norm(place) !== "by") return null;
    const at = DETERMINERS.has(this.#norm(place + 1)) ? place + 2 : place + 1;
    return roleAt(this.#s, at) === null ? null : at;
  }

  /** "nothing replaced", "no parts ordered". */
  #isNone(thing: Thing, start: number): boolean {
    return thing.start > start && NEGATIVE.has(this.#norm(thing.start - 1));
  }

  /** What "it" is: the thing of the task before, else what the sentence, or the one before, says something of. */
  #meant(place: number, start: number): Thing | null {
    const from = this.#words.findLastIndex(({ stop }, at) => stop === "." && at < start);
    for (const first of from < 0 ? [start] : [start, from]) {
      const last = this.#found.findLast(({ thing, first: at }) => thing !== null && at >= first);
      if (last) return last.thing;
      for (let at = first; at < place; at++) {
        const thing = thingAfter(this.#s, at, this.#isVerb);
        if (!thing || thing.end >= place) continue;
        const isOurs = this.#words.slice(thing.start, thing.end).some(({ norm }) => isOfTrade(norm));
        if (isOurs || (at === first && this.#isTold(thing.end))) return thing;
      }
    }
    return null;
  }

  /** "… and should be replaced", "it should be replaced": what is said before, or not at all. */
  #isLeftOut(place: number): boolean {
    return this.#words[place]?.stop !== "" || /^(?:it|they|these|those|and)$/.test(this.#norm(place - 1));
  }

  /** Whether something is said of what stands before: "… is worn", "… noisy". */
  #isTold(place: number): boolean {
    const word = this.#words[place];
    if (!word) return false;
    return hasVerb(this.#s, place) || ["Verb", "Adjective", "PastTense"].some((tag) => word.tags.has(tag));
  }

  /** What was done at another time or by others is not of this visit. */
  #isOld(place: number, start: number, end: number): boolean {
    let from = place;
    while (from > start && this.#words[from]?.stop === "") from--;
    const to = this.#clauseEnd(place + 1, end);
    const [first, last] = [this.#words[from], this.#words[to - 1]];
    return first !== undefined && last !== undefined && PAST_TIME.test(this.#text.slice(first.from, last.to));
  }

  /** "needs a new fan", "trap needs a clean". What needs replacing is found by its verb. */
  #need(place: number, start: number, end: number, taken: number): Found | "denied" | null {
    const before = this.#norm(place - 1);
    if (NEGATIVE.has(before) || POSSIBLE.has(before) || POSSIBLE.has(this.#norm(place - 2)))
      return NEGATIVE.has(before) ? "denied" : null;
    if (OTHERS.has(before) && before !== "it") return null;
    if (/^(?:no|nothing|none)$/.test(this.#norm(place + 1))) return "denied";
    if (roleAt(this.#s, place - 1) !== null) {
      this.#quoteAsked(place, end);
      return null;
    }
    if (/^(?:want|wants)$/.test(this.#norm(place)) && place === start) return null;
    let object = place + 1;
    while (
      (DETERMINERS.has(this.#norm(object)) && this.#norm(object) !== "replacement") ||
      /^(?:good|full|proper|quick|thorough)$/.test(this.#norm(object))
    )
      object++;
    const nominal = this.#nominal(object);
    const first = Math.max(start, taken);
    if (nominal) {
      const thing = thingBefore(this.#s, place, first);
      return thing
        ? this.#made(nominal, object, object + 1, thing, null, false, thing.start, object + 1)
        : null;
    }
    return this.#needOf(place);
  }

  /** What follows "needs", "could do with". */
  #needOf(place: number): Found | null {
    const isMany = this.#words[place + 1]?.tags.has("Value") && DETERMINERS.has(this.#norm(place + 2));
    const thing = thingAfter(this.#s, isMany ? place + 2 : place + 1, this.#isVerb);
    if (!thing || NOT_NEEDED.has(this.#norm(thing.end - 1)) || NOT_NEEDED.has(this.#norm(thing.start)))
      return null;
    return thing.isNew
      ? this.#made("replace", place, thing.start, thing, null, false, place, thing.end)
      : this.#made("other", place, place + 1, thing, null, false, place, thing.end);
  }

  #nominal(place: number): TaskAction | null {
    const word = this.#norm(place);
    if (
      !(word in NOMINAL) ||
      (!DETERMINERS.has(this.#norm(place - 1)) &&
        !/^(?:good|full|proper|quick|thorough)$/.test(this.#norm(place - 1)) &&
        !/ment$|ing$/.test(word))
    )
      return null;
    const next = this.#words[place + 1];
    const isAlone =
      next === undefined || next.stop !== "" || this.#s.isWhen(place + 1) || !next.tags.has("Noun");
    return isAlone ? NOMINAL[word as keyof typeof NOMINAL] : null;
  }

  /** "new gasket required". */
  #needed(place: number, start: number, taken: number): Found | null {
    if (/^(?:if|as|when|where|is|not|was|to)$/.test(this.#norm(place - 1)) || this.#norm(place + 1) === "to")
      return null;
    const thing = thingBefore(this.#s, place, Math.max(start, taken));
    if (!thing || this.#isNone(thing, start)) return null;
    const isNew = thing.isNew || NEW.has(this.#norm(thing.start - 1));
    return this.#made(
      isNew ? "replace" : "other",
      place,
      place + 1,
      thing,
      null,
      false,
      thing.start,
      place + 1,
    );
  }

  /** "return visit needed", "follow up visit in two weeks", "revisit on Friday". */
  #visit(place: number, start: number, end: number): Found | "denied" | null {
    const [match] =
      VISIT.exec(this.#text.slice(this.#words[place]?.from ?? 0, this.#words[end - 1]?.to)) ?? [];
    if (match === undefined) return null;
    const to = (this.#words[place]?.from ?? 0) + match.length;
    let after = place;
    while (after < end && (this.#words[after]?.from ?? to) < to) after++;
    if (
      NEGATIVE.has(this.#norm(place - 1)) ||
      (NEGATIVE.has(this.#norm(place - 2)) && NEEDS.has(this.#norm(place - 1)))
    )
      return "denied";
    let at = place - 1;
    while (at >= start && DETERMINERS.has(this.#norm(at))) at--;
    if (/^(?:needed|required|due)$/.test(this.#norm(after))) after++;
    const isWished =
      NEEDS.has(this.#norm(at)) || /^(?:book|arrange|schedule|for|booked|arranged)$/.test(this.#norm(at));
    const isDue =
      this.#s.isWhen(after) ||
      /^(?:needed|required|due)$/.test(this.#norm(after - 1)) ||
      /^(?:on|in|by|to)$/.test(this.#norm(after));
    if (!isWished && !isDue) return null;
    return this.#made("return", place, after, null, null, false, place, after);
  }

  #isVisit({ start, end }: Thing): boolean {
    const words = this.#words
      .slice(start, end)
      .map(({ norm }) => norm)
      .join(" ");
    return /^(?:(?:return|follow up|follow-up|second|repeat|further) )?(?:visit|revisit|appointment)$/.test(
      words,
    );
  }

  #made(
    action: TaskAction,
    start: number,
    end: number,
    thing: Thing | null,
    who: number | null,
    done: boolean,
    first = start,
    last = end,
  ): Found {
    return { action, start, end, thing, who, done, first, last };
  }

  /** Which task each day is of: the one before it, with nothing but its own words between; else the one after it. */
  #dues(): (When | null)[] {
    const dues = this.#found.map((): When | null => null);
    const give = (task: number, when: When) => {
      const known = dues[task];
      if (!known || (known.day === null && when.day !== null)) dues[task] = when;
    };
    for (const when of this.#whens) {
      const first = this.#words.findIndex((word) => word.from < when.to && word.to > when.from);
      const after = this.#words.findIndex((word) => word.from >= when.to);
      if (first < 0) continue;
      const before = this.#found.findLastIndex(({ start }) => start < first);
      const task = this.#found[before];
      if (task && !task.done && this.#isNear(Math.max(task.last, task.end), first)) {
        give(before, when);
        continue;
      }
      const next = this.#found.findIndex(({ start, done }) => start > first && !done);
      const coming = this.#found[next];
      if (coming && after >= 0 && this.#isNear(after, coming.first)) give(next, when);
    }
    // "come back to replace the fan on Friday", "come back on Friday and fit it": one outing, one day.
    this.#found.forEach((task, index) => {
      const other = this.#found[index + 1];
      if (task.action !== "return" || !other || other.done || !this.#isOuting(task, other)) return;
      const [one, two] = [dues[index] ?? null, dues[index + 1] ?? null];
      dues[index] = one ?? two;
      dues[index + 1] = two ?? one;
    });
    return dues;
  }

  /** Whether nothing is said between two places that is of anything else. */
  #isNear(from: number, to: number): boolean {
    for (let at = from; at < to; at++) {
      if (at > 0 && this.#words[at]?.stop === ".") return false;
      if (!this.#s.isWhen(at) && !NEAR.test(this.#norm(at))) return false;
    }
    return this.#words[to]?.stop !== "." || to === 0 || from >= to;
  }

  #isOuting(one: Found, other: Found): boolean {
    for (let at = one.end; at < Math.min(other.first, other.start); at++) {
      if (this.#words[at]?.stop === ".") return false;
      if (
        !this.#s.isWhen(at) &&
        !/^(?:to|and|with|then|on|by|in|at|for|the|i|we|will|'ll)$/.test(this.#norm(at))
      )
        return false;
    }
    return true;
  }

  #task({ action, start, end, thing, who, done }: Found, when: When | null): Task {
    const span = (from: number, to: number): Span => ({
      from: this.#words[from]?.from ?? 0,
      to: this.#words[to - 1]?.to ?? 1,
    });
    const said = thing && span(thing.start, thing.end);
    const role = who === null ? null : roleAt(this.#s, who);
    return {
      action: { value: action, span: span(start, end) },
      thing:
        said && said.to - said.from <= MOST_LETTERS
          ? { value: this.#text.slice(said.from, said.to), span: said }
          : null,
      due: when && !done ? { value: when.day, span: { from: when.from, to: when.to } } : null,
      who: role && who !== null ? { value: role, span: span(who, who + 1) } : null,
      done,
    };
  }
}

const VISIT =
  /^(?:(?:return|follow[ -]?up|second|repeat|further) (?:visit|appointment)|revisit|follow[ -]?up)\b/i;

const NEAR =
  /^(?:on|by|before|for|at|in|the|a|and|please|it|them|again|due|until|till|from|around|about|early|late|first|thing|latest|then|to|have|we|i|will|need|needs|must|should|or|so|that|is|be)$/;
