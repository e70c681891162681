import type { TaskAction } from "../../visit/task.ts";
import type { Found } from "./found.ts";
import type { Sentence, Thing } from "./thing.ts";
import { isOfTrade } from "./trade-words.ts";
import { DETERMINERS, NEW, TIES } from "./vocabulary.ts";

/** What is ordered or brought one by one: each thing of a list is a task of its own. */
const ONE_BY_ONE: ReadonlySet<TaskAction> = new Set<TaskAction>(["order", "bring"]);

/** "order a gasket, two electrodes and a trap": a task for each thing; any other task as it is. */
export function apartEach(s: Sentence, task: Found): Found[] {
  const { thing, action } = task;
  if (!thing || !ONE_BY_ONE.has(action)) return [task];
  const things = partsOf(s, thing);
  return things.map((part) => ({ ...task, thing: part }));
}

function partsOf(s: Sentence, { start, end, isNew }: Thing): Thing[] {
  const parts: Thing[] = [];
  let from = start;
  for (let at = start + 1; at < end; at++) {
    const next = nextPart(s, at, end);
    if (next === null || !isApart(s, from, at, next)) continue;
    parts.push({ start: from, end: at, isNew });
    from = pastArticle(s, next, end);
    at = from;
  }
  return [...parts, { start: from, end, isNew }];
}

/** Where the next thing begins, if a place parts two: a comma, "and", "and also", "plus". */
function nextPart({ words }: Sentence, place: number, end: number): number | null {
  let at = place;
  while (at < end && /^(?:and|&|plus|also|as|well)$/.test(words[at]?.norm ?? "")) at++;
  // "trap gasket two electrodes", as dictated.
  const isCounted = /^(?:two|three|four|five|six|a|an)$/.test(words[place]?.norm ?? "");
  const isMore = place + 1 < end && words[place + 1]?.stop === "";
  if (isCounted && isMore && words[place]?.stop === "" && isOfTrade(words[place - 1]?.norm ?? ""))
    return place;
  const isParted =
    at > place ? /^(?:and|&|plus|as)$/.test(words[place]?.norm ?? "") : words[place]?.stop === ",";
  return isParted && at < end ? at : null;
}

/** Whether they are two things: the next has an article or a number of its own, or both are plain names of parts. */
function isApart(s: Sentence, from: number, place: number, next: number): boolean {
  const { words } = s;
  const word = words[next];
  if (!word) return false;
  if (/^(?:a|an|some|one)$/.test(word.norm) || NEW.has(word.norm) || word.tags.has("Value")) return true;
  if (words.slice(from, place).some(({ norm }) => TIES.has(norm))) return false;
  // "inlet and outlet valves" is one thing's name for two.
  return word.norm === "the" || words[place]?.stop === "," || isOfTrade(words[place - 1]?.norm ?? "");
}

function pastArticle({ words }: Sentence, place: number, end: number): number {
  let at = place;
  while (at < end - 1 && DETERMINERS.has(words[at]?.norm ?? "")) at++;
  return at;
}
