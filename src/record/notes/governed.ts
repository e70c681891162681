import type { ActionWord, VerbForm } from "./actions.ts";
import {
  isActive,
  isAfterBound,
  isAfterDeed,
  isBareOrder,
  isCould,
  isHaveDone,
  isMan,
  isOnceSo,
  isPassiveHelped,
  isToldPassively,
  sharedBe,
} from "./around.ts";
import { isNounHere } from "./noun-or-verb.ts";
import { roleOf } from "./roles.ts";
import { isThing, type Sentence } from "./thing.ts";
import {
  ADVISED,
  BOUND,
  CONJUNCTIONS,
  DETERMINERS,
  HELPERS,
  NEEDS,
  NEGATIVE,
  NOT_BEFORE_TO,
  OTHERS,
  POSSIBLE,
  TIES,
  WE,
} from "./vocabulary.ts";

/** How a verb is meant: to be done, done in the visit, or neither. */
export interface Governed {
  readonly meant: "to-do" | "done" | "nothing";
  /** Whether the thing stands before it: "gasket replaced", "gasket needs replacing". */
  readonly isPassive: boolean;
  /** Place of the word for who is to do it. */
  readonly who: number | null;
  /** Whether a "not" takes what follows with "and" or "or" along. */
  readonly isDenied: boolean;
  /** Where what governs it begins. */
  readonly from: number;
  /** Whether that stands with the verb before it: "has to be drained and cleaned". */
  readonly isShared: boolean;
}

/** Where in a sentence a verb stands. */
export interface Where {
  /** First word of the sentence. */
  readonly start: number;
  /** Up to here all is of earlier tasks. */
  readonly taken: number;
  /** How the verb before it in the sentence was meant. */
  readonly before: "to-do" | "done" | null;
}

const NOTHING: Governed = {
  meant: "nothing",
  isPassive: false,
  who: null,
  isDenied: false,
  from: 0,
  isShared: false,
};

/** How the verb at a place is meant, by the words before it: "no need to", "I have", "should be". */
export function governed(s: Sentence, place: number, act: ActionWord, where: Where): Governed {
  const { words } = s;
  let from = place;
  while (
    from > where.start &&
    from > where.taken &&
    words[from]?.stop === "" &&
    isHelper(words[from - 1]?.norm)
  )
    from--;
  const helpers = words.slice(from, place).map(({ norm }) => norm);
  const has = (...sets: readonly ReadonlySet<string>[]) =>
    helpers.some((word) => sets.some((all) => all.has(word)));
  const isFirst = from === where.start || words[from]?.stop !== "";
  const before = isFirst ? null : (words[from - 1] ?? null);
  const who = before && roleOf(before.norm) !== null ? from - 1 : null;
  const isPlease = helpers.includes("please");
  const isAsked =
    (isPlease || isCould(s, from - 2) || isHaveDone(s, from - 1)) &&
    act.forms.has("base") &&
    !helpers.includes("have");
  const isAnyone = (has(NEEDS, BOUND) || isAsked) && /^(?:someone|somebody|you)$/.test(before?.norm ?? "");
  // "the other man had changed the board": somebody of another trade, or a neighbour.
  const isSomebody =
    before !== null && roleOf(before.norm) === null && (OTHERS.has(before.norm) || isMan(before));
  const isOthers = isSomebody && !isAnyone;
  const isToPeople = act.action === "tell" || act.action === "call";
  const to = (meant: Governed["meant"], isPassive = false): Governed => ({
    meant,
    isPassive,
    who: meant === "to-do" && !has(WE) && (!isPassive || isToPeople) ? who : null,
    isDenied: false,
    from,
    isShared: false,
  });
  if (has(NEGATIVE)) return { ...NOTHING, isDenied: true, from };
  const isIt = before !== null && /^(?:it|they|these|those)$/.test(before.norm);
  const isFree = isOnceSo(s, helpers, where.start);
  if ((has(POSSIBLE) && !isFree) || (isOthers && !isIt)) return { ...NOTHING, from };
  const wasOrIs = helpers.some((word) => /^(?:be|been|being|is|are|was|were|got|gets)$/.test(word));

  if (act.forms.has("gerund")) {
    if (has(NEEDS)) return to("to-do", true);
    if (
      act.action === "return" &&
      (isFirst || has(WE) || helpers.length > 0) &&
      who === null &&
      s.isWhen(place + act.length)
    )
      return to("to-do");
    return has(ADVISED) && who === null ? to("to-do") : NOTHING;
  }
  if (
    act.forms.has("base") &&
    (!act.forms.has("past") || helpers.includes("to") || isPlease || has(BOUND) || act.action === "tell") &&
    !isPassiveHelped(helpers)
  )
    return base();
  if (act.forms.has("past")) return act.forms.has("base") && helpers.length === 0 ? either() : past();
  return { ...NOTHING, from };

  function base(): Governed {
    if (isIt) return NOTHING;
    const nearest = helpers.findLast(
      (word) =>
        !/^(?:please|just|also|then|still|now|already|only|again|properly|fully|soon|ideally|definitely|eventually|really|always|better|next|time|longer)$/.test(
          word,
        ),
    );
    if (nearest === "to") {
      if (helpers.includes("had")) return to("done");
      // "was going to order one": it came to nothing, or it would be said that it was done.
      if (helpers.includes("going") && /\b(?:was|were)\b/.test(helpers.join(" "))) return NOTHING;
      if (
        has(BOUND, NEEDS) ||
        helpers.some((word) => /^(?:have|has|going|remember|plan|planning|got|i'm)$/.test(word))
      )
        return has(OTHERS) ? NOTHING : to("to-do");
      if (
        !before ||
        who !== null ||
        CONJUNCTIONS.has(before.norm) ||
        s.isWhen(from - 1) ||
        from - 1 < where.taken
      )
        return to("to-do");
      if (before.norm === "sure") return to("to-do");
      // "forgot to check the trap": it is still to be done, where we are who forgot.
      if (before.norm === "forgot") {
        const whose = words[from - 2];
        const isOurs = from - 1 === where.start || words[from - 1]?.stop !== "" || WE.has(whose?.norm ?? "");
        return isOurs || CONJUNCTIONS.has(whose?.norm ?? "") ? to("to-do") : NOTHING;
      }
      if (NOT_BEFORE_TO.has(before.norm) || before.tags.has("Adjective") || before.tags.has("Adverb"))
        return NOTHING;
      if (WE.has(before.norm) || isAfterDeed(s, from, where)) return NOTHING;
      return to("to-do", isThing(s, from - 1) && !hasObject(place + act.length));
    }
    if (has(BOUND) || isFree)
      return before &&
        who === null &&
        !isAnyone &&
        isThing(s, from - 1) &&
        from - 1 >= where.taken &&
        !has(WE)
        ? NOTHING
        : to("to-do");
    if (nearest !== undefined) return { ...NOTHING, from };
    // Nothing governs it: it asks for something where it can only be a verb.
    if (who !== null) return isPlease || isHaveDone(s, who) ? to("to-do") : NOTHING;
    if (isBareOrder(s, place, act)) return to("to-do");
    if ((act.isCommon || act.base === "quote for") && isNounHere(s, place, act)) return NOTHING;
    if (!before || CONJUNCTIONS.has(before.norm) || s.isWhen(from - 1)) return to("to-do");
    if (/^(?:note|todo|action|job|actions|jobs|reminder|followup|follow-up|visit|up)$/.test(before.norm))
      return to("to-do");
    const next = words[place + act.length]?.norm ?? "";
    const points = /^(?:the|a|an|it|them|one|new|all|both|him|her)$/.test(next);
    if (act.action === "call" && /^(?:him|her|them)$/.test(next)) return to("to-do");
    if (DETERMINERS.has(before.norm) || TIES.has(before.norm) || before.tags.has("Preposition"))
      return NOTHING;
    if (from - 1 < where.taken)
      return act.isCommon && !points && !hasObject(place + act.length) ? NOTHING : to("to-do");
    if (act.action === "return" && !act.isCommon) return to("to-do");
    return points || (!act.isCommon && !before.tags.has("Value")) ? to("to-do") : NOTHING;
  }

  /** "reset", "put back": what it is beside, or a day to come, says which. */
  function either(): Governed {
    if (who !== null || (isOthers && from - 1 >= where.taken)) return NOTHING;
    if (where.before !== null && (!before || CONJUNCTIONS.has(before.norm) || from - 1 < where.taken))
      return to(where.before);
    for (let at = place + 1; words[at]?.stop === ""; at++)
      if (s.isWhen(at)) return isFirst ? to("to-do") : NOTHING;
    return NOTHING;
  }

  function past(): Governed {
    const shared = helpers.length === 0 ? sharedBe(s, from, where.start) : null;
    if (shared !== null) {
      const with1 = { ...act, forms: new Set(["past"] as const), length: 1 };
      const as = governed(s, shared, with1, { ...where, taken: where.start });
      const isOwn = words[from - 1]?.norm !== "and";
      if (as.meant === "to-do" && as.isPassive)
        return { ...as, isShared: !isOwn, from: isOwn ? from : as.from };
    }
    const isBound =
      isFree ||
      has(BOUND, NEEDS) ||
      helpers.includes("to") ||
      helpers.some((word) => word === "have" && helpers.includes("to"));
    if (helpers.includes("being") || (helpers.includes("had") && helpers.includes("been"))) return NOTHING;
    if (helpers.includes("been") && has(BOUND)) return NOTHING;
    if (helpers.includes("be") && helpers.length === 1 && isAfterBound(s, from))
      return { ...to("to-do", true), isShared: true };
    if (helpers.includes("be")) return isBound ? to("to-do", true) : NOTHING;
    if (has(NEEDS)) return to("to-do", true);
    if (wasOrIs && act.action === "tell") return who === null ? NOTHING : { ...to("done"), who };
    if (wasOrIs)
      return act.isCommon && helpers.some((word) => word === "is" || word === "are")
        ? NOTHING
        : to("done", true);
    if (isBound) return NOTHING;
    if (who !== null) return isToldPassively(s, place, act) ? { ...to("done"), who } : NOTHING;
    if (has(WE) || helpers.some((word) => /^(?:have|has|had)$/.test(word))) return to("done");
    if (!before || CONJUNCTIONS.has(before.norm) || s.isWhen(from - 1)) return to("done");
    if (isThing(s, from - 1) && from - 1 >= where.taken) return to("done", !isActive(s, place + act.length));
    if (from - 1 < where.taken) return to("done");
    return NOTHING;
  }

  function hasObject(at: number): boolean {
    const word = words[at];
    if (word?.stop !== "") return false;
    return (
      DETERMINERS.has(word.norm) ||
      isThing(s, at) ||
      roleOf(word.norm) !== null ||
      /^(?:it|them|one)$/.test(word.norm)
    );
  }
}

function isHelper(word: string | undefined): boolean {
  if (word === undefined) return false;
  return [HELPERS, NEGATIVE, POSSIBLE, BOUND, NEEDS, ADVISED, WE].some((all) => all.has(word));
}

/** How a verb that is in no list is meant at a place: "have", "send", "put". */
export function ledAt(s: Sentence & Pick<Where, "start" | "taken">, place: number, form: VerbForm): Governed {
  const act = { action: "other", base: "do", forms: new Set([form]), length: 1, isCommon: false } as const;
  return governed(s, place, act, { start: s.start, taken: s.taken, before: null });
}
