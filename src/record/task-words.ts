import { capital } from "../measure/capital.ts";
import type { Task, TaskAction } from "../visit/task.ts";
import { baseVerb, PARTICLES } from "./notes/actions.ts";
import { hasTimeOfDay } from "./notes/time-of-day.ts";
import { shownDay } from "./wording.ts";

// One wording of tasks for the screen, the record, the calendar and the tables. A note's own verb comes before the name of the
// action that it was taken for: "sealed" stays "seal", and is not made a repair.

/** What actions are called where the note has no verb of its own for them. */
const VERBS: Readonly<Record<TaskAction, string>> = {
  replace: "replace",
  order: "order",
  bring: "bring",
  clean: "clean",
  check: "check",
  repair: "repair",
  fit: "fit",
  remove: "remove",
  adjust: "adjust",
  call: "call",
  return: "come back",
  tell: "tell",
  quote: "quote for",
  other: "",
};

/** Whole verbs that are better said otherwise: "let the owner know" is to tell him. */
const SAID_AS: ReadonlyMap<string, string> = new Map([
  ["let", "tell"],
  ["give a ring", "call"],
]);

/** Of those actions whoever is named is what they are done to. */
const TO_PEOPLE: ReadonlySet<TaskAction> = new Set(["call", "tell"]);

/** A task's action in a word or two, in the note's own verb: "top up"; "" where the note has none and no name fits. */
export function actionInWords(task: Task, text: string): string {
  const { thing } = task;
  const { value, span } = task.action;
  if (value === "return") return VERBS.return;
  if (value === "quote") return thing ? VERBS.quote : "quote a price";
  if (!span) return VERBS[value];
  const verb = baseOf(task, text);
  if (verb === null) return value === "other" ? "needed:" : VERBS[value];
  return SAID_AS.get(verb) ?? verb;
}

/**
 * A task in a few words: "Replace condensate trap gasket", "Call the customer: price", "Electrician to check supply"; `text`
 * are the note's words, for want of others.
 */
export function taskInShort(task: Task, text: string): string {
  const { action, thing, who, done } = task;
  const verb = actionInWords(task, text);
  const of = thing?.value ?? "";
  if (verb === "") return capital(of) || text;
  if (!who && !thing && TO_PEOPLE.has(action.value)) return capital(`${verb} somebody`);
  if (who && TO_PEOPLE.has(action.value)) return capital(`${verb} the ${who.value}${of && `: ${of}`}`);
  if (who && action.value === "quote") return `Quote the ${who.value} ${thing ? `for ${of}` : "a price"}`;
  const isNoun = isNamed(task, text);
  const tie = action.value === "return" || isTold(task, text) ? ": " : isFor(task, text) ? " for " : " ";
  const what = isNoun ? `${of} ${verb}` : `${verb}${of && `${tie}${of}`}`;
  if (!who) return capital(what);
  if (isGivenTo(task, text)) return capital(`${what} to the ${who.value}`);
  const isVisit = action.value === "return" && baseOf(task, text) === null;
  return done || isNoun || isVisit ? capital(`${what} (${who.value})`) : `${capital(who.value)} to ${what}`;
}

/** The note's verb; null where the action comes from none. */
function baseOf({ action: { span } }: Task, text: string): string | null {
  if (!span) return null;
  const said = text.slice(span.from, span.to);
  const [, particle = ""] = BEHIND.exec(text.slice(span.to)) ?? [];
  return baseVerb(said) ?? baseVerb(`${said} ${particle}`);
}

/** "top the pressure up": the particle of a verb behind what it is done to. */
const BEHIND = new RegExp(
  `^(?:\\s+[\\p{L}\\p{N}'’.-]+){1,6}?\\s+(${[...PARTICLES].join("|")})(?![\\p{L}\\p{N}])`,
  "u",
);

/** "tested for leaks". */
function isFor({ action, thing }: Task, text: string): boolean {
  if (action.value !== "check" || !action.span || !thing?.span) return false;
  return /^\sfor\s$/i.test(text.slice(action.span.to, thing.span.from));
}

/** "leak check": the action's word is a noun behind its thing. */
function isNamed({ action, thing }: Task, text: string): boolean {
  if (!action.span || !thing?.span || action.value !== "check") return false;
  const said = text.slice(action.span.from, action.span.to).toLowerCase();
  return text.slice(thing.span.to, action.span.from) === " " && said === baseVerb(said);
}

/** "call Harriet about the fan": it is not the fan that is called. */
function isTold({ action, thing }: Task, text: string): boolean {
  if (!TO_PEOPLE.has(action.value) || !action.span || !thing?.span) return false;
  return !/^\s(?:(?:the|a|an|our|their|his|her)\s)*$/i.test(text.slice(action.span.to, thing.span.from));
}

/** "send the invoice to the agent": who gets it, and not who does it. */
function isGivenTo({ action, who }: Task, text: string): boolean {
  if (action.value !== "other" || !action.span || !who?.span || action.span.from > who.span.from)
    return false;
  return /\bto (?:(?:the|a|an|our|their|his|her|\w+ing) )*$/i.test(text.slice(action.span.to, who.span.from));
}

/** When a task is due: "1 Dec 2026", with the note's words where they tell the hour or name no day; "" where nothing is said. */
export function dueInWords({ due }: Task, text: string): string {
  if (!due) return "";
  const said = due.span ? `“${text.slice(due.span.from, due.span.to)}”` : "";
  if (due.value === null) return said === "" ? "no day" : `${said}, no day named`;
  return hasTimeOfDay(said) ? `${shownDay(due.value)} (${said})` : shownDay(due.value);
}
