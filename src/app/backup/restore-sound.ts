import { bytesOf } from "../../device/base64.ts";
import type { ClipRow, ClipShelf } from "../../device/notebook/clip-shelf.ts";
import { epochMs } from "../../measure/instant.ts";
import type { ClipLine } from "../../record/backup/line.ts";
import { SETTINGS_KEY } from "../preferences.ts";
import { allowsClips } from "../settings.ts";
import { NOTHING_RESTORED, type Restored } from "./restored.ts";

export interface SoundWorld {
  readonly clips: Pick<ClipShelf, "of" | "keepAll">;
  /** What is from before this would be deleted within the hour: milliseconds since the epoch. */
  readonly oldest: () => number;
}

/** So many bytes at least are stored together: each writing waits for the disk. */
const TOGETHER = 1024 * 1024;

/** Puts the sound of a backup beside the entries that it is of; what is here already stays. Rejects where storing fails. */
export class SoundBack {
  counts: Restored["clips"] = NOTHING_RESTORED.clips;
  readonly #world: SoundWorld;
  /** Visits to which the backup's sound belongs, with the places that have sound here already. */
  readonly #there = new Map<string, ReadonlySet<number>>();
  #waiting: ClipRow[] = [];
  #bytes = 0;

  constructor(world: SoundWorld) {
    this.#world = world;
  }

  /** A visit is here as far as it is in the backup: its sound may come. */
  async expect(visitId: string): Promise<void> {
    this.#there.set(visitId, new Set(await this.#world.clips.of(visitId)));
  }

  async take({ visitId, seq, at, type, data, speaker }: ClipLine): Promise<void> {
    const there = this.#there.get(visitId);
    if (!there) return this.#count("withoutVisit", 1);
    if (there.has(seq)) return this.#count("same", 1);
    if (epochMs(at) < this.#world.oldest()) return this.#count("notKept", 1);
    const bytes = bytesOf(data);
    const who = speaker === undefined ? {} : { speaker };
    this.#waiting.push({ visitId, seq, at, type, data: bytes.buffer, ...who });
    this.#bytes += bytes.length;
    if (this.#bytes >= TOGETHER) await this.store();
  }

  /** Stores what waits. */
  async store(): Promise<void> {
    const rows = this.#waiting;
    this.#waiting = [];
    this.#bytes = 0;
    if (rows.length === 0) return;
    const kept = await this.#world.clips.keepAll(rows, SETTINGS_KEY, allowsClips);
    this.#count(kept ? "added" : "notKept", rows.length);
  }

  #count(fate: keyof Restored["clips"], more: number): void {
    this.counts = { ...this.counts, [fate]: this.counts[fate] + more };
  }
}
