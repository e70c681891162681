import type { Firing } from "../measure/firing.ts";
import { amend } from "./amend.ts";
import { askedNumber, askedOfGas } from "./asked.ts";
import type { Cover } from "./cover.ts";
import {
  asking,
  carried,
  type Draft,
  type Heard,
  type PieceOf,
  type Setting,
  strayNumber,
  strayQuantity,
} from "./draft.ts";
import { firingsOf } from "./firings.ts";
import type { Item, Meaning } from "./item.ts";
import { isChatter, isForLog, isMended, isNameBeside } from "./kept.ts";
import { mendReading } from "./mend.ts";
import { strike } from "./strike.ts";
import { spells, takeReading } from "./take-reading.ts";
import { adjustment, contradict, mendTurn, nameScrew, turnAgain, turnIn } from "./turns.ts";

/**
 * Below this confidence of the ear a number is asked about, not logged. Chosen for the offline ear on its tuning set
 * (grammars/en/acoustic/README.md): in quiet 95 % of the phrases are logged right and 0.2 % wrong, at 10 dB 87 % and 1 %.
 */
const ASK_BELOW = 0.85;

/** The meaning of a phrase, and which of its islands it came from. */
export interface Assembled {
  readonly meaning: Meaning;
  readonly used: readonly Heard[];
}

/**
 * Turns the islands of one phrase into items in spoken order: repairs mended, firing spread, bounds kept, what an aside
 * covers left out. `covers` goes with `heard`.
 */
export function assemble(
  text: string,
  heard: readonly Heard[],
  covers: readonly Cover[],
  context: Setting,
): Assembled {
  const forLog = heard.filter((island, i) => isForLog(island, covers[i] ?? null));
  const kept = forLog.filter(
    (island, i) =>
      !isMended(island, forLog.slice(i + 1)) &&
      !isChatter(island, heard, context) &&
      !isNameBeside(island, heard),
  );
  const firings = firingsOf(kept);
  const drafts: Draft[] = [];
  const unclear = new Set<Draft>();
  const used: Heard[] = [];
  kept.forEach((island, i) => {
    const cover = covers[heard.indexOf(island)] ?? null;
    const before = new Set(drafts);
    take(drafts, island, kept, firings[i] ?? null, cover, context);
    // A firing is of the readings beside it, or names the screw.
    if (island.piece.kind === "firing" || drafts.some((draft) => !before.has(draft))) used.push(island);
    if (island.heard >= ASK_BELOW) return;
    for (const draft of drafts) if (!before.has(draft)) unclear.add(draft);
  });
  const sure = drafts
    .map((draft) => (unclear.has(draft) ? askedNumber(draft, text) : draft))
    .map((draft) => askedOfGas(draft, text, context));
  const meaning = {
    text,
    items: sure.flatMap((draft) => ("item" in draft ? [draft.item] : [])),
    unsure: sure.flatMap((draft) => ("unsure" in draft ? [draft.unsure] : [])),
  };
  return { meaning, used: sure.length > 0 ? used : [] };
}

type CheckItem = Extract<Item, { kind: "check" }>;

function take(
  drafts: Draft[],
  island: Heard,
  heard: readonly Heard[],
  firing: Firing | null,
  cover: Cover,
  context: Setting,
): void {
  const { piece, said, before, after } = island;
  const alone = before && after;
  switch (piece.kind) {
    case "firing":
      // Said of readings it is theirs; right after a turn it names the screw; said alone it is a change of mode.
      if (heard.some((other) => other.piece.kind === "reading") || nameScrew(drafts, piece.firing)) return;
      // "No, low fire", said of the readings before it.
      if (piece.mends && drafts.length === 0 && context.read !== null && context.read !== piece.firing) {
        drafts.push({ item: { kind: "mend", firing: piece.firing } });
        return;
      }
      takeFiring(drafts, island, piece, heard);
      return;
    case "reading":
      takeReading(drafts, island, piece, firing ?? context.asked, cover, heard, context);
      return;
    case "stray-number":
      if (spells(drafts, island, piece, heard)) return;
      if (alone && !isLength(piece))
        drafts.push(carried(island, firing, drafts, context) ?? strayNumber(island, piece, firing, context));
      return;
    case "stray-quantity":
      // "CO2, CO2 nine point two"
      if (
        alone &&
        !heard.some((other) => other.piece.kind === "reading" && other.piece.quantity === piece.quantity)
      )
        drafts.push(strayQuantity(island, piece, firing));
      return;
    case "replace":
    case "replace-turn":
      mend(drafts, island, context);
      return;
    case "mend":
      amend(drafts, island, piece, context);
      return;
    case "strike":
      strike(drafts, piece);
      return;
    case "adjustment":
      takeTurn(drafts, island, piece, heard, context);
      return;
    case "answer": {
      const item = answered(piece, context);
      if (item) drafts.push({ item });
      else contradict(drafts, island, piece);
      return;
    }
    case "check":
      if (piece.asked) drafts.push(asking(said, "may be of something else", [checkItem(piece, true)]));
      else takeCheck(drafts, checkItem(piece, piece.done && cover !== "not"));
      return;
    case "command":
      drafts.push({ item: piece });
      return;
    case "note":
      drafts.push({ item: { kind: "note", text: island.note ?? said } });
      return;
    case "aside":
      return;
  }
}

/** "Low again" is a change where nothing else is said, a judgement beside a value; "low" alone may be either, "that's low" is none. */
function takeFiring(
  drafts: Draft[],
  { said, place, start, before, after }: Heard,
  { bare, firing }: PieceOf<"firing">,
  heard: readonly Heard[],
): void {
  const item = { kind: "firing", firing } as const;
  const isAlone = heard.length === 1 && before && after;
  if (!bare || (isAlone && place === "only")) drafts.push({ item });
  else if (isAlone && start === 0) drafts.push(asking(said, "may be the firing", [item]));
}

/** "No, three quarters" mends a turn where the last thing said was one, else a reading. */
function mend(drafts: Draft[], island: Heard, context: Setting): void {
  const ways = [island.piece, ...island.rivals.map((rival) => rival.piece)];
  const turn = ways.find((way) => way.kind === "replace-turn");
  const number = ways.find((way) => way.kind === "replace");
  const last = drafts.at(-1);
  const ofTurn = last ? turnIn(last) !== null : context.turn !== null;
  if (turn && (ofTurn || !number)) mendTurn(drafts, island, turn, context);
  else if (number) mendReading(drafts, island, number, context);
}

function takeTurn(
  drafts: Draft[],
  island: Heard,
  piece: PieceOf<"adjustment">,
  heard: readonly Heard[],
  context: Setting,
): void {
  if (piece.continues && !drafts.some(isTurn)) return;
  // "high, an eighth clockwise"
  const bare = heard.find(
    ({ piece: other, end }) => other.kind === "firing" && other.bare && end === island.start,
  );
  const named = bare?.piece.kind === "firing" ? bare.piece.firing : null;
  const draft = adjustment(island, { ...piece, adjuster: piece.adjuster ?? named }, drafts, context);
  if (piece.mends) turnAgain(drafts, draft, context);
  else drafts.push(draft);
}

/** "Eight feet" alone is talk: an altitude is said with its name. */
function isLength({ unit }: PieceOf<"stray-number">): boolean {
  return unit === "m" || unit === "[ft_i]";
}

/** Said twice in one breath it is one; the last word counts. */
function takeCheck(drafts: Draft[], check: CheckItem): void {
  const before = drafts.findIndex(
    (draft) => "item" in draft && draft.item.kind === "check" && draft.item.item === check.item,
  );
  if (before >= 0) drafts.splice(before, 1);
  drafts.push({ item: check });
}

function checkItem({ item }: PieceOf<"check">, done: boolean): CheckItem {
  return { kind: "check", item, done };
}

function isTurn(draft: Draft): boolean {
  return "item" in draft && draft.item.kind === "adjustment";
}

/** "Clockwise", "the high one": the rest of what was asked for. Null where no such question is open. */
function answered({ way, adjuster, check }: PieceOf<"answer">, { question, open }: Setting): Item | null {
  if (check !== null) return open.includes(check) ? { kind: "check", item: check, done: true } : null;
  if (question?.asks === "way" && (way === 1 || way === -1)) {
    return { kind: "adjustment", adjuster: question.adjuster, turns: way * question.turns };
  }
  if (question?.asks === "screw" && adjuster !== null) {
    return { kind: "adjustment", adjuster, turns: question.turns };
  }
  return null;
}
