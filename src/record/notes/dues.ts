import { type Found, isRole, normAt } from "./found.ts";
import type { Sentence } from "./thing.ts";
import type { When } from "./when.ts";

/** Which day each task is for: of the task before it, with nothing but its own words between; else of the one after it. */
export function duesOf(s: Sentence, found: readonly Found[], whens: readonly When[]): (When | null)[] {
  const { words } = s;
  const dues = found.map((): When | null => null);
  const give = (task: number, when: When) => {
    const known = dues[task];
    if (!known || (known.day === null && when.day !== null)) dues[task] = when;
  };
  for (const when of whens) {
    const first = words.findIndex((word) => word.from < when.to && word.to > when.from);
    const after = words.findIndex((word) => word.from >= when.to);
    if (first < 0) continue;
    const before = found.findLastIndex(({ start }) => start < first);
    const task = found[before];
    if (task && !task.done && isNear(s, Math.max(task.last, task.end), first)) {
      give(before, when);
      continue;
    }
    if (when.isBehind) continue;
    const next = found.findIndex(({ start, done }) => start > first && !done);
    const coming = found[next];
    if (coming && after >= 0 && isNear(s, after, coming.first)) give(next, when);
  }
  shareOutings(s, found, dues);
  return dues;
}

/** "come back to replace the fan on Friday", "come back on Friday and fit it": one outing, one day. */
function shareOutings(s: Sentence, found: readonly Found[], dues: (When | null)[]): void {
  found.forEach((task, index) => {
    const other = found[index + 1];
    if (task.action !== "return" || !other || other.done || !isOuting(s, task, other)) return;
    const [one, two] = [dues[index] ?? null, dues[index + 1] ?? null];
    dues[index] = one ?? two;
    dues[index + 1] = two ?? one;
  });
}

const NEAR =
  /^(?:on|by|before|for|at|in|the|a|and|please|it|them|again|due|until|till|from|around|about|early|late|first|thing|latest|then|to|have|we|i|will|need|needs|must|should|or|so|that|is|be|instead)$/;

/** Whether nothing is said between two places that is of anything else. */
function isNear(s: Sentence, from: number, to: number): boolean {
  for (let at = from; at < to; at++) {
    if (at > 0 && s.words[at]?.stop === ".") return false;
    if (!s.isWhen(at) && !NEAR.test(normAt(s, at)) && !isRole(s, at)) return false;
  }
  return from >= to || s.words[to]?.stop !== ".";
}

/** Whether a day stands at a place, or right after a word that leads to it. */
export function isNearDue(s: Sentence, place: number): boolean {
  return s.isWhen(place) || (NEAR.test(normAt(s, place)) && s.isWhen(place + 1));
}

function isOuting(s: Sentence, one: Found, other: Found): boolean {
  for (let at = one.end; at < Math.min(other.first, other.start); at++) {
    if (s.words[at]?.stop === ".") return false;
    if (!s.isWhen(at) && !/^(?:to|and|with|then|on|by|in|at|for|the|i|we|will)$/.test(normAt(s, at)))
      return false;
  }
  return true;
}
