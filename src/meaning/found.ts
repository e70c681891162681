import type { Piece, Place } from "./piece.ts";

/** An island with what it says, between two words of the phrase. `cost` counts how implausible its value is. */
export interface Span {
  readonly start: number;
  readonly end: number;
  readonly cost: number;
  readonly explained: number;
  readonly piece: Piece;
  readonly place: Place | null;
}

/** Another way to read the same words, and by how much the whole phrase is dearer with it, in nats. */
export interface Rival {
  readonly piece: Piece;
  readonly behind: number;
}

/** One island of the best reading of a phrase, the rivals that come close to it, and how likely it is among them. */
export interface Found extends Span {
  readonly rivals: readonly Rival[];
  readonly share: number;
}
