import type { Firing } from "../measure/firing.ts";
import type { Heard } from "./draft.ts";

/**
 * The firing of each island: the last one said before it, or the only one when it is said after all readings. A bare
 * "high" counts only right before a reading at the head of a clause.
 */
export function firingsOf(heard: readonly Heard[]): (Firing | null)[] {
  const readings = heard.map(({ piece }) => piece.kind === "reading");
  const said = heard.flatMap((island, i) => {
    const firing = firingIn(island, heard[i + 1]);
    return firing ? [{ i, firing }] : [];
  });
  const [only] = said;
  const last = readings.lastIndexOf(true);
  if (only && said.length === 1 && (only.i > last || isOfAll(heard, only.i)))
    return heard.map(() => only.firing);
  // "9.2 on high and 8.9 on low": each firing stands after its own reading.
  if (trails(heard)) return trailing(heard);
  let current: Firing | null = null;
  return heard.map((island, i) => {
    current = firingIn(island, heard[i + 1]) ?? current;
    return current;
  });
}

function firingIn({ piece, before, end }: Heard, next: Heard | undefined): Firing | null {
  if (piece.kind === "reading") return piece.firing;
  if (piece.kind !== "firing") return null;
  if (!piece.bare) return piece.firing;
  const number = next?.piece.kind === "reading" || next?.piece.kind === "stray-number";
  return before && number && next.start - end <= 1 ? piece.firing : null;
}

/** "CO2 eight point nine on low fire and the CO is eleven": not a switch, and nothing is read twice. */
function isOfAll(heard: readonly Heard[], at: number): boolean {
  const { piece } = heard[at] ?? {};
  if (piece?.kind !== "firing" || !piece.held) return false;
  const read = heard.flatMap((other) => (other.piece.kind === "reading" ? [other.piece.quantity] : []));
  return new Set(read).size === read.length;
}

/** Whether the phrase begins with a reading and ends with a firing, two or more of each: firings follow their readings. */
function trails(heard: readonly Heard[]): boolean {
  const row = heard.filter(
    ({ piece }) => piece.kind === "reading" || (piece.kind === "firing" && !piece.bare),
  );
  const firings = row.filter(({ piece }) => piece.kind === "firing").length;
  return firings > 1 && row[0]?.piece.kind === "reading" && row.at(-1)?.piece.kind === "firing";
}

function trailing(heard: readonly Heard[]): (Firing | null)[] {
  let current: Firing | null = null;
  return heard
    .toReversed()
    .map(({ piece }) => {
      if (piece.kind === "firing" && !piece.bare) current = piece.firing;
      return current;
    })
    .reverse();
}
