import type { Cover } from "./cover.ts";
import type { Heard, Setting } from "./draft.ts";
import type { Command } from "./item.ts";

/** Commands that say how things are: no question is one. */
const STATEMENTS: ReadonlySet<Command> = new Set(["gas-smell", "co-alarm", "acknowledge"]);

const SETTINGS: ReadonlySet<Command> = new Set(["less-talk", "more-talk"]);

/** A plan, a quotation, a question or a denial is not logged; a check that is denied is one that is not done. */
export function isForLog({ piece, place, before, after, apart }: Heard, cover: Cover): boolean {
  if (place === "only" && !(before && after)) return false;
  if (place === "alone" && !apart) return false;
  switch (piece.kind) {
    case "aside":
      return false;
    case "note":
      return true;
    case "command":
      if (STATEMENTS.has(piece.command)) return cover === null;
      return cover === null || cover === "question" || cover === "asked";
    case "check":
      return cover === null || (cover === "not" && !piece.asked);
    case "reading":
      return cover === null || cover === "asked";
    default:
      return cover === null;
  }
}

/** "High fire, no, I mean low fire": the first one was not meant. */
export function isMended({ piece }: Heard, after: readonly Heard[]): boolean {
  if (piece.kind !== "firing") return false;
  const next = after.find((other) => other.piece.kind === "firing" || other.piece.kind === "reading");
  return next?.piece.kind === "firing" && next.piece.mends;
}

/** "Yeah, CO fifty-five" answers nothing where nothing was asked; a command said twice in one breath is one. */
export function isChatter(island: Heard, heard: readonly Heard[], { question }: Setting): boolean {
  const { piece } = island;
  if (piece.kind !== "command") return false;
  const answers = piece.command === "yes" || piece.command === "no";
  if (
    answers &&
    question === null &&
    heard.some(({ piece }) => piece.kind !== "command" && piece.kind !== "aside")
  )
    return true;
  // How much is said is asked for by itself: two short words beside others are misheard.
  if (SETTINGS.has(piece.command) && heard.some((other) => other !== island && other.piece.kind !== "aside"))
    return true;
  const first = heard.find(
    (other) => other.piece.kind === "command" && other.piece.command === piece.command,
  );
  return first !== island;
}

/** A bare name beside anything but checks ("no cap", "scratch that panel") confirms nothing. */
export function isNameBeside({ piece }: Heard, heard: readonly Heard[]): boolean {
  if (piece.kind !== "answer" || piece.check === null) return false;
  return heard.some(({ piece: other }) => {
    const confirms = other.kind === "check" || (other.kind === "answer" && other.check !== null);
    return !confirms && !(other.kind === "command" && other.command === "yes");
  });
}
