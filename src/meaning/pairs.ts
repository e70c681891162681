import type { Context } from "./context.ts";
import type { Cover } from "./cover.ts";
import { BARE, type Heard, type PieceOf } from "./draft.ts";
import type { Flaw } from "./piece.ts";

/**
 * "9.2/40" is two readings, CO2 and CO, said in one place. Where no firing is known, in the phrase or of the visit, nothing
 * says that they are those two: they are asked about.
 */
export function unpaired(
  heard: readonly Heard[],
  covers: readonly Cover[],
  { firing }: Context,
): { heard: Heard[]; covers: Cover[] } {
  const known = firing !== null || heard.some(({ piece }) => piece.kind === "firing");
  const each = heard.map((island) => {
    if (island.piece.kind !== "pair") return [island];
    return readingsOf(island.piece, known ? null : "unnamed").map((piece) => ({
      ...island,
      piece,
      rivals: [],
    }));
  });
  return { heard: each.flat(), covers: each.flatMap((parts, i) => parts.map(() => covers[i] ?? null)) };
}

/** The two readings of a pair. */
export function readingsOf(
  { co2, co }: PieceOf<"pair">,
  flaw: Flaw | null,
): [co2: PieceOf<"reading">, co: PieceOf<"reading">] {
  return [
    { ...BARE, quantity: "co2", value: co2, unit: "%", flaw },
    { ...BARE, quantity: "co", value: co, unit: "[ppm]", flaw },
  ];
}
