import { signal } from "@preact/signals";
import type { ClipEncoder } from "../../device/clips/encoder.ts";
import type { ClipPlayer } from "../../device/clips/player.ts";
import type { ClipShelf } from "../../device/notebook/clip-shelf.ts";
import { DAY_MS, epochMs, isoTime } from "../../measure/instant.ts";
import type { Entry } from "../../visit/entry.ts";
import { allowsClips, type Settings } from "../settings.ts";

/** What keeping sound needs of the world. */
export interface ClipWorld {
  readonly shelf: ClipShelf;
  readonly encoder: ClipEncoder;
  readonly player: ClipPlayer;
  readonly settings: () => Settings;
  /** Where the shelf finds the settings, for a last look before it stores. */
  readonly settingsKey: string;
  readonly now: () => string;
  /** Does what sounds aloud while the ear hears nothing. */
  readonly sounds: (sounding: () => Promise<void>) => Promise<void>;
  /** Why something failed, without a full stop. */
  readonly reason: (error: unknown) => string;
}

/** The sound kept beside the log. Nothing here rejects or is waited for by an answer: what fails becomes `trouble`. */
export class Clips {
  /** Places of the entries with kept sound, in the visit that is open. */
  readonly kept = signal<ReadonlySet<number>>(new Set());
  /** The place of the sound that plays; null where none does. */
  readonly playing = signal<number | null>(null);
  /** What went wrong last, in one sentence; null once something has gone well again. */
  readonly trouble = signal<string | null>(null);
  readonly #world: ClipWorld;
  #visitId: string | null = null;

  constructor(world: ClipWorld) {
    this.#world = world;
  }

  /** Turns to a visit, or away from all with null. */
  async open(visitId: string | null): Promise<void> {
    this.stop();
    this.#visitId = visitId;
    this.kept.value = new Set();
    await this.#try("The kept sound cannot be read", () => this.#list());
  }

  /** Gets ready to keep sound, while there is a network to load from. */
  prepare(): void {
    if (this.#world.settings().keepClips) this.#world.encoder.prepare();
  }

  /** Keeps the sound of a phrase beside the first entry that it gave. */
  async keep(visitId: string, { seq, at }: Entry, sound: Float32Array): Promise<void> {
    const { keepClips, speaker } = this.#world.settings();
    if (!keepClips) return;
    await this.#try("The sound of the last words was not kept", async () => {
      const { shelf, encoder, settingsKey } = this.#world;
      const clip = await encoder.encode(sound);
      const row = { visitId, seq, at, ...clip, ...(speaker !== null && { speaker }) };
      const kept = await shelf.keep(row, settingsKey, allowsClips);
      if (kept && visitId === this.#visitId) this.kept.value = new Set([...this.kept.value, seq]);
    });
  }

  /** Plays kept sound; what played before is stopped. */
  async play(seq: number): Promise<void> {
    const visitId = this.#visitId;
    if (visitId === null) return;
    await this.#try("The sound cannot be played", async () => {
      const clip = await this.#world.shelf.get(visitId, seq);
      if (!clip) return this.#list();
      await this.#world.sounds(async () => {
        const over = this.#world.player.play(clip);
        this.playing.value = seq;
        try {
          await over;
        } finally {
          if (this.playing.value === seq) this.playing.value = null;
        }
      });
    });
  }

  stop(): void {
    this.#world.player.stop();
    this.playing.value = null;
  }

  /** Deletes what is older than the person wants it kept. */
  async expire(): Promise<void> {
    await this.#try("Old sound could not be deleted", async () => {
      const { shelf, now, settings } = this.#world;
      await shelf.dropBefore(isoTime(epochMs(now()) - settings().clipDays * DAY_MS));
      await this.#list();
    });
  }

  async #list(): Promise<void> {
    const visitId = this.#visitId;
    if (visitId === null) return;
    const kept = await this.#world.shelf.of(visitId);
    if (visitId === this.#visitId) this.kept.value = new Set(kept);
  }

  async #try(what: string, work: () => Promise<void>): Promise<void> {
    try {
      await work();
      this.trouble.value = null;
    } catch (error) {
      this.trouble.value = `${what}: ${this.#world.reason(error)}.`;
    }
  }
}
