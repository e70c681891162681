import type { Firing } from "../measure/firing.ts";
import type { Context } from "./context.ts";
import { asking, type Draft, type Heard, type PieceOf } from "./draft.ts";
import type { Item } from "./item.ts";
import type { Way } from "./piece.ts";

type AdjustmentItem = Extract<Item, { kind: "adjustment" }>;

/** Nobody turns a valve's screw further than this at once: misheard. */
const MOST_TURNS = 20;

/** A turn of a screw; asked about where it was not said which way, or where it can be read in two ways. */
export function adjustment(
  island: Heard,
  piece: PieceOf<"adjustment">,
  drafts: readonly Draft[],
  context: Context,
): Draft {
  const { said } = island;
  const { turns, way } = piece;
  const before = lastTurn(drafts) ?? context.turn;
  // "High screw in a half, then out an eighth": the same screw.
  const goesOn = way === "same" || way === "opposite";
  const onward = lastTurn(drafts)?.adjuster ?? (goesOn ? context.turn?.adjuster : null);
  const adjuster = piece.adjuster ?? onward ?? null;
  if (!(turns > 0 && turns <= MOST_TURNS)) return asking(said, `${turns} turns are not possible`, []);
  const sign = signOf(way, before);
  if (sign === null) {
    return asking(said, "a turn without a direction", [turn(adjuster, turns), turn(adjuster, -turns)], {
      asks: "way",
      adjuster,
      turns,
    });
  }
  const others = island.rivals
    .map((rival) => rival.piece)
    .filter((rival) => rival.kind === "adjustment")
    .filter((rival) => rival.way === 1 || rival.way === -1)
    .map((rival) => turn(rival.adjuster ?? adjuster, Number(rival.way) * rival.turns))
    .filter((other) => other.turns !== sign * turns || other.adjuster !== adjuster);
  const item = turn(adjuster, sign * turns);
  if (others.length === 0) return { item };
  return asking(said, "could be read in more than one way", [item, ...others]);
}

/** 1 clockwise, -1 counterclockwise; null where it is not known. */
function signOf(way: Way, before: { readonly turns: number } | null): number | null {
  if (way === 1 || way === -1 || way === null) return way;
  if (!before) return null;
  return way === "same" ? Math.sign(before.turns) : -Math.sign(before.turns);
}

/** "A tenth, no, an eighth": the last turn of the phrase, else of the visit, is said again. */
export function mendTurn(
  drafts: Draft[],
  island: Heard,
  { turns, way }: PieceOf<"replace-turn">,
  context: Context,
): void {
  const at = drafts.findLastIndex((draft) => turnIn(draft) !== null);
  const draft = drafts[at];
  const old = draft ? turnIn(draft) : null;
  if (draft && old) {
    const known = "item" in draft;
    const sign = signOf(way ?? "same", old) ?? 1;
    const text = `${known ? "" : `${draft.unsure.text} `}${island.said}`;
    drafts[at] =
      known || way === 1 || way === -1
        ? { item: turn(old.adjuster, sign * turns) }
        : asking(
            text,
            "a turn without a direction",
            [turn(old.adjuster, turns), turn(old.adjuster, -turns)],
            {
              asks: "way",
              adjuster: old.adjuster,
              turns,
            },
          );
    return;
  }
  if (context.turn) {
    const sign = signOf(way ?? "same", context.turn) ?? 1;
    drafts.push(
      { item: { kind: "strike", last: "adjustment" } },
      { item: turn(context.turn.adjuster, sign * turns) },
    );
    return;
  }
  if (way === 1 || way === -1) drafts.push(asking(island.said, "no turn to mend", [turn(null, way * turns)]));
  else
    drafts.push(
      asking(island.said, "no turn to mend", [turn(null, turns), turn(null, -turns)], {
        asks: "way",
        adjuster: null,
        turns,
      }),
    );
}

/** "No, low screw a tenth out" takes the place of the last turn of the phrase, else of the visit's. */
export function turnAgain(drafts: Draft[], again: Draft, context: Context): void {
  const at = drafts.findLastIndex((draft) => turnIn(draft) !== null);
  if (at >= 0) drafts[at] = again;
  else if (context.turn) drafts.push({ item: { kind: "strike", last: "adjustment" } }, again);
  else drafts.push(again);
}

/** "A quarter turn clockwise, high fire": the screw of a turn, where nothing is read. False where it is no such turn. */
export function nameScrew(drafts: Draft[], firing: Firing): boolean {
  const last = drafts.at(-1);
  const old = last ? turnIn(last) : null;
  if (!last || !old || old.adjuster !== null) return false;
  if ("item" in last) drafts[drafts.length - 1] = { item: { ...old, adjuster: firing } };
  else {
    const { text, reason, candidates, question } = last.unsure;
    const named = candidates.map((each) =>
      each.kind === "adjustment" ? { ...each, adjuster: firing } : each,
    );
    const missing = question?.asks === "way" ? { ...question, adjuster: firing } : question;
    drafts[drafts.length - 1] = asking(text, reason, named, missing);
  }
  return true;
}

/** "In an eighth turn counterclockwise": two ways, so neither is taken. */
export function contradict(drafts: Draft[], { said }: Heard, { way }: PieceOf<"answer">): void {
  const last = drafts.at(-1);
  const old = last && "item" in last ? turnIn(last) : null;
  if (!old || (way !== 1 && way !== -1) || Math.sign(old.turns) === way) return;
  const { adjuster, turns } = old;
  drafts[drafts.length - 1] = asking(said, "two directions for one turn", [old, turn(adjuster, -turns)], {
    asks: "way",
    adjuster,
    turns: Math.abs(turns),
  });
}

function turn(adjuster: AdjustmentItem["adjuster"], turns: number): AdjustmentItem {
  return { kind: "adjustment", adjuster, turns };
}

/** The turn that a draft logs, or asks about first. */
export function turnIn(draft: Draft): AdjustmentItem | null {
  const item = "item" in draft ? draft.item : draft.unsure.candidates[0];
  return item?.kind === "adjustment" ? item : null;
}

function lastTurn(drafts: readonly Draft[]): AdjustmentItem | null {
  const last = drafts.findLast((draft) => "item" in draft && draft.item.kind === "adjustment");
  return last ? turnIn(last) : null;
}
