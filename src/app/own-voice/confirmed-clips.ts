import type { Clip } from "../../device/clips/clip.ts";
import type { ConfirmedClip } from "../../device/ears/offline/adapt.ts";
import type { Notebook } from "../../device/notebook/notebook.ts";
import { confirmedPhrases } from "../../visit/confirmed.ts";

/** A kept clip of a phrase that the person who speaks in it confirmed. */
export interface ConfirmedRow {
  readonly clip: Clip;
  readonly text: string;
}

type Shelves = Pick<Notebook, "visits" | "visit" | "clips">;

/**
 * What one person confirmed and of which the sound is kept, newest visits first, `most` at most; oldest first in what is given.
 * Clips that do not say who spoke are nobody's. Visits that cannot be read are passed over.
 * @param speaker the id of the voice
 */
export async function confirmedRows(
  notebook: Shelves,
  speaker: string,
  most: number,
): Promise<readonly ConfirmedRow[]> {
  const out: ConfirmedRow[] = [];
  for (const { id } of (await notebook.visits()).whole) {
    if (out.length >= most) break;
    const rows = await notebook.clips.rowsOf(id);
    const own = rows.filter((row) => row.speaker === speaker);
    if (own.length === 0) continue;
    const visit = await notebook.visit(id).catch(() => null);
    if (!visit) continue;
    const texts = new Map(confirmedPhrases(visit).map(({ seq, text }) => [seq, text]));
    const confirmed = own.flatMap(({ seq, type, data }): ConfirmedRow[] => {
      const text = texts.get(seq);
      return text === undefined ? [] : [{ clip: { type, data }, text }];
    });
    out.unshift(...confirmed);
  }
  return out.slice(-most);
}

/** Longer than this nobody says one thing, seconds: it is not learned from. */
const LONGEST = 12;

/** Their sound; what cannot be read, or is too long, is left out. */
export async function decodedRows(
  rows: readonly ConfirmedRow[],
  decode: (clip: Clip) => Promise<Float32Array>,
  rate: number,
): Promise<readonly ConfirmedClip[]> {
  const out: ConfirmedClip[] = [];
  for (const { clip, text } of rows) {
    const sound = await decode(clip).catch(() => null);
    if (sound && sound.length <= LONGEST * rate) out.push({ sound, text });
  }
  return out;
}
