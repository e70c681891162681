import type { TaskAction } from "../../visit/task.ts";

/** A form of a verb: "replace", "replaces", "replaced", "replacing"; "put in" is its own past. */
export type VerbForm = "base" | "third" | "past" | "gerund";

export interface ActionWord {
  readonly action: TaskAction;
  /** The verb as it stands in the list: "top up". */
  readonly base: string;
  /** All that the words may be: "put" is base and past. */
  readonly forms: ReadonlySet<VerbForm>;
  /** How many words it has: "come back" two. */
  readonly length: number;
  /** Whether the same word is a noun or an adjective as well: "seal", "clean", "order". */
  readonly isCommon: boolean;
}

/** Verbs by what they ask for. "*" marks those that are nouns or adjectives as well. Second word: a particle. */
const VERBS: Readonly<Record<TaskAction, string>> = {
  replace: "replace, change*, swap, renew, change out, swap out, change over, put a new",
  order: "order*, reorder, re-order, order up, get hold of",
  bring: "bring, bring back, bring along, fetch, collect, pick up, take along",
  clean:
    "clean*, clean out, clean up, descale, flush*, flush out, unblock, clear*, clear out, wash, wash out, vacuum*, hoover*, sweep*, brush out, wipe, decoke",
  check:
    "check*, check up on, recheck, re-check, double check, inspect, test*, retest, re-test, verify, look at, look into, look over, look again, have a look at, take a look at, have another look at, see about, measure*, monitor, keep an eye on, investigate, trace, repeat*, redo",
  repair: "repair*, fix*, refix, re-fix, mend, reseal, re-seal, resolder, patch*, repack, rewire, re-wire",
  fit: "fit*, put on, install, mount*, refit, add, put in, reinstall, put back",
  remove: "remove, take out, take off, take away, dispose of, strip out, cap off, disconnect",
  adjust:
    "adjust, readjust, tighten, tighten up, retighten, reset*, recalibrate, calibrate, rebalance, balance*, loosen, set*, turn down, turn up, set up, set back, dial in",
  call: "call*, chase, chase up, follow up with, call back, call up, ring*, ring back, phone*, telephone, give a ring, get on to, get in touch with, contact*",
  return:
    "return*, reschedule, rebook, come back, go back, revisit*, come again, come round, call in, pop back, be back, get back",
  tell: "tell, inform, let, remind, advise, notify, warn, ask, email, write to, text*, message*, report to, instruct",
  quote: "quote*, price up, price*, send a quote, send quote, give a quote, quote for",
  other:
    "book*, book in, arrange, schedule*, top up, bleed, lag, insulate, refill, drain*, drain down, service*, label*, move, reroute, relocate, extend, support*, secure, register, upload, fill up, vent*, grease*, oil*, purge, repressurise, repressurize, seal*, seal up, seal off, hand over, send, relag, regrease, top off, dose, pump up, charge up, recharge, sort out, see to, isolate, pressurise, pressurize, blow down, get in, switch over, wire in",
};

/** Verbs whose past is not made with -ed. */
const PASTS: Readonly<Record<string, string>> = {
  bring: "brought",
  take: "took taken",
  put: "put",
  set: "set",
  reset: "reset",
  get: "got",
  go: "went gone",
  come: "came",
  tell: "told",
  let: "let",
  ring: "rang rung",
  give: "gave given",
  send: "sent",
  sweep: "swept",
  see: "saw",
  have: "had",
  look: "looked",
  leave: "left",
  bleed: "bled",
  keep: "kept",
  write: "wrote written",
  be: "was",
  fit: "fitted",
  refit: "refitted",
  swap: "swapped",
  strip: "stripped",
  cap: "capped",
  pop: "popped",
  lag: "lagged",
  drain: "drained",
  top: "topped",
};

const DOUBLING = /^(?:fit|refit|set|reset|put|swap|strip|cap|pop|lag|let|get|top)$/;

function formsOf(verb: string): readonly (readonly [string, VerbForm])[] {
  const stem = /[^e]e$/.test(verb) && verb !== "be" ? verb.slice(0, -1) : verb;
  const doubled = DOUBLING.test(verb) ? verb + verb.slice(-1) : stem;
  const ed = verb.endsWith("y") && !/[aeiou]y$/.test(verb) ? `${verb.slice(0, -1)}ied` : `${doubled}ed`;
  const s = /(?:s|x|ch|sh)$/.test(verb)
    ? `${verb}es`
    : ed.endsWith("ied")
      ? `${verb.slice(0, -1)}ies`
      : `${verb}s`;
  return [
    [verb, "base"],
    [s, "third"],
    [`${doubled}ing`, "gerund"],
    ...(PASTS[verb]?.split(" ") ?? [ed]).map((past) => [past, "past"] as const),
  ];
}

const ACTIONS: ReadonlyMap<string, ActionWord> = table();

function table(): Map<string, ActionWord> {
  const all = new Map<string, ActionWord>();
  for (const action of Object.keys(VERBS) as TaskAction[]) {
    for (const entry of VERBS[action].split(", ")) {
      const isCommon = entry.endsWith("*");
      const [verb = "", ...rest] = entry.replace("*", "").split(" ");
      for (const [form, kind] of formsOf(verb)) {
        const words = [form, ...rest].join(" ");
        const known = all.get(words);
        const forms = new Set([...(known?.forms ?? []), kind]);
        all.set(words, {
          action: known?.action ?? action,
          base: known?.base ?? entry.replace("*", ""),
          forms,
          length: 1 + rest.length,
          isCommon: isCommon || (known?.isCommon ?? false),
        });
      }
    }
  }
  return all;
}

/** What a verb may have behind what it is done to: "top the pressure up". */
export const PARTICLES: ReadonlySet<string> = new Set(
  "up out off back down over away in on along".split(" "),
);

const PARTED: ReadonlySet<string> = new Set(
  [...ACTIONS.keys()].flatMap((words) => {
    const [verb = "", particle = "", more] = words.split(" ");
    return more === undefined && PARTICLES.has(particle) && !ACTIONS.has(verb) ? [verb] : [];
  }),
);

/** Whether a word (in lower case) is a verb of the list only with a particle: "top", "take", "turned". */
export function isPartedVerb(word: string): boolean {
  return PARTED.has(word);
}

const LONGEST = Math.max(...[...ACTIONS.values()].map(({ length }) => length));

/** The verb that words are a form of, "top up" of "Topped up"; null where they are none. */
export function baseVerb(words: string): string | null {
  if (words.toLowerCase() === "do") return "do";
  return ACTIONS.get(words.toLowerCase().replaceAll(/\s+/g, " "))?.base ?? null;
}

/** The action that begins at a word, the longest; null where none does. `norm` gives the words from there, in lower case. */
export function actionAt(norm: (ahead: number) => string | undefined): ActionWord | null {
  const words: string[] = [];
  let found: ActionWord | null = null;
  for (let ahead = 0; ahead < LONGEST; ahead++) {
    const word = norm(ahead);
    if (word === undefined) break;
    words.push(word);
    found = ACTIONS.get(words.join(" ")) ?? found;
  }
  return found;
}
