import { signal } from "@preact/signals";
import { sha256 } from "../../device/signing/sha256.ts";
import type { BackupKind } from "../../record/backup/kind.ts";
import { type Found, readBackup } from "../../record/backup/read.ts";
import { type RestoreWorld, restore } from "./restore.ts";
import type { Restored } from "./restored.ts";
import { openBackup } from "./source.ts";
import { type FoundInWords, foundInWords } from "./words.ts";

type Lines = () => AsyncIterable<Uint8Array>;

/** How restoring a backup stands. */
export type RestoringStand =
  /** `wrong`: the one before was not the right one, or the file was changed. */
  | { readonly kind: "passphrase"; readonly wrong: boolean }
  | { readonly kind: "unlocking" }
  | { readonly kind: "reading" }
  /** Read through; nothing is changed yet. */
  | {
      readonly kind: "ready";
      readonly words: FoundInWords;
      /** Whether it has settings, and whether to take them over unless told otherwise. */
      readonly settings: { readonly there: boolean; readonly wanted: boolean };
    }
  | { readonly kind: "restoring"; readonly done: number; readonly of: number }
  /** `lost` as in FoundInWords. */
  | { readonly kind: "done"; readonly restored: Restored; readonly lost: string }
  /** Nothing can be restored of it, and nothing was. */
  | { readonly kind: "refused"; readonly sentences: readonly string[] };

export interface RestoringWorld extends RestoreWorld {
  /** Why this browser cannot make or read backups; null where it can. */
  readonly lacking: () => string | null;
  readonly zone: () => string | null;
  /** What is here was changed: it is listed anew. */
  readonly changed: () => Promise<void>;
}

/** One backup on its way back: unlocked, looked through, and only then restored. Nothing here rejects. */
export class Restoring {
  readonly stand = signal<RestoringStand>({ kind: "reading" });
  readonly name: string;
  readonly #file: Blob;
  readonly #world: RestoringWorld;
  #unlock: ((passphrase: string) => Promise<Lines | null>) | null = null;
  #lines: Lines | null = null;
  #items = 0;

  constructor(file: Blob, name: string, world: RestoringWorld) {
    this.#file = file;
    this.name = name;
    this.#world = world;
  }

  /** Looks what it is, and reads it through where it is not locked. */
  async open(kind: BackupKind): Promise<void> {
    await this.#try(async () => {
      const none = this.#world.lacking();
      if (none !== null) throw new Error(none);
      const opened = await openBackup(this.#file, kind);
      switch (opened.kind) {
        case "bad":
          return this.#refuse(opened.problems.map(({ message }) => message));
        case "locked":
          this.#unlock = opened.unlock;
          this.stand.value = { kind: "passphrase", wrong: false };
          return;
        case "open":
          return this.#look(opened.lines);
      }
    });
  }

  async unlock(passphrase: string): Promise<void> {
    const unlock = this.#unlock;
    if (!unlock || this.stand.value.kind !== "passphrase") return;
    this.stand.value = { kind: "unlocking" };
    await this.#try(async () => {
      const lines = await unlock(passphrase);
      if (lines) await this.#look(lines);
      else this.stand.value = { kind: "passphrase", wrong: true };
    });
  }

  /** Restores what can be read of it. */
  async restore(withSettings: boolean): Promise<void> {
    const lines = this.#lines;
    if (!lines || this.stand.value.kind !== "ready") return;
    const { lost } = this.stand.value.words;
    const of = this.#items;
    this.stand.value = { kind: "restoring", done: 0, of };
    let done = 0;
    const restored = await restore(lines(), withSettings, this.#world, () => {
      done += 1;
      if (done % 20 === 0) this.stand.value = { kind: "restoring", done, of };
    });
    // What is stored is stored, whether or not it can be listed now.
    await this.#world.changed().catch(() => undefined);
    this.stand.value = { kind: "done", restored, lost };
  }

  async #look(lines: Lines): Promise<void> {
    this.stand.value = { kind: "reading" };
    const { breathe, reason, notebook, zone } = this.#world;
    const reading = readBackup(lines(), sha256, reason);
    let next = await reading.next();
    while (!next.done) {
      await breathe();
      next = await reading.next();
    }
    const found = next.value;
    this.#items = itemsIn(found);
    const words = foundInWords(found, zone());
    if (this.#items === 0 && !found.head) return this.#refuse(words.problems);
    this.#lines = lines;
    const [visits, sheets] = await Promise.all([notebook.visits(), notebook.sheets()]);
    // On a device where nothing is, nothing is lost by it.
    const wanted = visits.whole.length === 0 && sheets.whole.length === 0;
    this.stand.value = { kind: "ready", words, settings: { there: found.settings, wanted } };
  }

  #refuse(messages: readonly string[]): void {
    this.stand.value = { kind: "refused", sentences: messages.map((message) => `${this.name}: ${message}`) };
  }

  async #try(work: () => Promise<void>): Promise<void> {
    try {
      await work();
    } catch (error) {
      this.#refuse([`${this.#world.reason(error)}.`]);
    }
  }
}

function itemsIn({ counts, settings }: Found): number {
  return Object.values(counts).reduce((sum, count) => sum + count, settings ? 1 : 0);
}
