import { signal } from "@preact/signals";
import type { Notebook } from "../../device/notebook/notebook.ts";
import type { Visit } from "../../visit/visit.ts";
import type { BackupSource } from "./contents.ts";
import { noteHanded } from "./note-handed.ts";
import { putOffFrom, type Reminder, reminderOf } from "./reminder.ts";

/** Where the notebook keeps until when the reminder is put off. */
const PUT_OFF_KEY = "backup-reminder-off-until";

export interface BackupDeskWorld extends Omit<BackupSource, "office" | "notebook"> {
  readonly notebook: BackupSource["notebook"] & Pick<Notebook, "unhanded" | "markHanded" | "keepSetting">;
  readonly office: () => Promise<BackupSource["office"]>;
  /** Why this browser cannot make or read backups; null where it can. */
  readonly lacking: () => string | null;
  readonly download: (name: string, file: Blob) => void;
  readonly now: () => string;
  /** The day here, YYYY-MM-DD. */
  readonly today: () => string;
}

/** What came of making a backup. */
export type BackupOutcome =
  | {
      readonly kind: "made";
      readonly name: string;
      /** What is in it, and what could not be read: a sentence each. */
      readonly sentences: readonly string[];
      readonly missing: readonly string[];
    }
  | { readonly kind: "failed"; readonly sentence: string };

/** Makes backups, and reminds of them. Nothing here rejects. */
export class BackupDesk {
  /** Whether the form is open. */
  readonly isOpen = signal(false);
  /** How far the backup is that is being made, 0 to 1; null where none is. */
  readonly making = signal<number | null>(null);
  readonly outcome = signal<BackupOutcome | null>(null);
  /** What is on this device only for too long. */
  readonly reminder = signal<Reminder | null>(null);
  readonly #world: BackupDeskWorld;

  constructor(world: BackupDeskWorld) {
    this.#world = world;
  }

  /** Looks whether there is something to remind of. What cannot be read reminds of nothing: other parts tell that. */
  async look(): Promise<void> {
    const { notebook, now } = this.#world;
    try {
      const [unhanded, until] = await Promise.all([notebook.unhanded(), notebook.setting(PUT_OFF_KEY)]);
      this.reminder.value = reminderOf(unhanded, now(), typeof until === "string" ? until : null);
    } catch {
      this.reminder.value = null;
    }
  }

  /** A file that can bring a visit back was handed over. */
  async handed({ head, entries }: Visit): Promise<void> {
    const { notebook, now } = this.#world;
    await noteHanded(notebook, [{ visitId: head.id, entries: entries.length, at: now() }]);
    await this.look();
  }

  /** For a week nothing is said. */
  async putOff(): Promise<void> {
    const { notebook, now } = this.#world;
    // Where it cannot be stored it comes back sooner: no harm is done.
    await notebook.keepSetting(PUT_OFF_KEY, putOffFrom(now())).catch(() => undefined);
    this.reminder.value = null;
  }

  /** How many sounds are kept, which a backup may be made without; 0 where that cannot be read. */
  async sounds(): Promise<number> {
    return this.#world.notebook.clips.count().catch(() => 0);
  }

  /** Makes a backup of everything and hands it to the person as a file. One at a time. */
  async make(wish: { readonly sound: boolean; readonly passphrase: string | null }): Promise<void> {
    if (this.making.value !== null) return;
    this.making.value = 0;
    this.outcome.value = null;
    try {
      this.outcome.value = await this.#make(wish);
    } catch (error) {
      const sentence = `No backup was made: ${this.#world.reason(error)}.`;
      this.outcome.value = { kind: "failed", sentence };
    } finally {
      this.making.value = null;
    }
    await this.look();
  }

  async #make(wish: { readonly sound: boolean; readonly passphrase: string | null }): Promise<BackupOutcome> {
    const { notebook, office, lacking, download, now, today } = this.#world;
    const none = lacking();
    if (none !== null) throw new Error(none);
    const [{ makeBackup }, { countsInWords, sizeInWords }, { backupName }] = await Promise.all([
      import("./make.ts"),
      import("./words.ts"),
      import("../../record/backup/kind.ts"),
    ]);
    const madeAt = now();
    const source = { ...this.#world, office: await office() };
    let told = 0;
    const made = await makeBackup(source, { ...wish, madeAt }, (share) => {
      // Drawn a hundred times, not with every line.
      if (share - told < 0.01) return;
      told = share;
      this.making.value = share;
    });
    const name = backupName(today(), wish.passphrase !== null);
    download(name, made.file);
    await noteHanded(
      notebook,
      made.putIn.map((one) => ({ ...one, at: madeAt })),
    );
    const sentences = [`In it: ${countsInWords(made.counts)}; ${sizeInWords(made.file.size)}.`];
    return { kind: "made", name, sentences, missing: made.missing };
  }
}
