import { quantityOf } from "../measure/quantity.ts";
import { asking, type Draft, type Heard, type PieceOf, reading, type Setting } from "./draft.ts";
import type { Mend, ReadingItem } from "./item.ts";
import { readingIn } from "./mend.ts";
import { turnIn } from "./turns.ts";

type MendPiece = PieceOf<"mend">;

/**
 * "No, celsius", "no, out": what was said wrong, without a number. It mends the last reading or turn of this phrase that can
 * have it, else it is an item that mends an older one. Where the word says two things ("in"), what was logged last decides.
 */
export function amend(drafts: Draft[], island: Heard, piece: MendPiece, context: Setting): void {
  const ways = [piece, ...island.rivals.map((rival) => rival.piece).filter((way) => way.kind === "mend")];
  const last = drafts.at(-1);
  const turned = last ? turnIn(last) !== null : context.turn !== null || null;
  const ranked = [...ways.filter((way) => isOfTurn(way) === turned), ...ways];
  if (
    ranked.some((way) =>
      isOfTurn(way) ? amendTurn(drafts, island, way) : amendReadings(drafts, island, way),
    )
  )
    return;
  const [first = piece] = ranked;
  drafts.push({ item: mendItem(first) });
}

function isOfTurn({ way, adjuster }: MendPiece): boolean {
  return way !== null || adjuster !== null;
}

function amendTurn(drafts: Draft[], { said }: Heard, { way, adjuster }: MendPiece): boolean {
  const at = drafts.findLastIndex((draft) => turnIn(draft) !== null);
  const draft = drafts[at];
  const old = draft ? turnIn(draft) : null;
  if (!draft || !old) return false;
  const mended = { ...old, adjuster: adjuster ?? old.adjuster };
  if (way !== null) {
    const sign = way === 1 || way === -1 ? way : -Math.sign(old.turns);
    drafts[at] = { item: { ...mended, turns: sign * Math.abs(old.turns) } };
  } else if ("item" in draft) drafts[at] = { item: mended };
  else {
    const { reason, candidates, question } = draft.unsure;
    const named = candidates.map((item) => (item.kind === "adjustment" ? { ...item, adjuster } : item));
    const missing = question?.asks === "way" ? { ...question, adjuster } : question;
    drafts[at] = asking(`${draft.unsure.text} ${said}`, reason, named, missing);
  }
  return true;
}

/** Whether some reading of the phrase can have it: the last one, or for a firing all of them. */
function amendReadings(drafts: Draft[], island: Heard, { unit, condition, firing }: MendPiece): boolean {
  const canHave = ({ quantity }: ReadingItem): boolean => {
    const { id, units, perFiring } = quantityOf(quantity);
    if (unit !== null) return units.length > 1 && units.includes(unit);
    return condition !== null ? id === "gas-pressure-inlet" : perFiring;
  };
  const fitting = drafts.flatMap((draft, at) => {
    const old = readingIn(draft);
    return old && canHave(old) ? [{ at, old }] : [];
  });
  for (const { at, old } of firing === null ? fitting.slice(-1) : fitting) {
    const again = {
      ...old,
      flaw: null,
      follows: false,
      pointed: false,
      unit: unit ?? old.unit,
      condition: condition ?? old.condition,
      firing: firing ?? old.firing,
    };
    const said = `${old.said} ${island.said}`;
    drafts[at] = reading({ ...island, said, confidence: old.confidence, rivals: [] }, again, old.firing);
  }
  return fitting.length > 0;
}

function mendItem({ unit, condition, firing, way, adjuster }: MendPiece): Mend {
  return {
    kind: "mend",
    ...(unit && { unit }),
    ...(condition && { condition }),
    ...(firing && { firing }),
    ...(adjuster && { adjuster }),
    ...(way !== null && { way: way === 1 ? "clockwise" : way === -1 ? "counterclockwise" : "opposite" }),
  };
}
