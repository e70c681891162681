import { signal } from "@preact/signals";
import { download } from "../../device/files.ts";
import type { Notebook } from "../../device/notebook/notebook.ts";
import type { VoiceProfile } from "../../device/spotter/voice-profile.ts";
import { quoted } from "../../measure/quoted.ts";
import type { Settings } from "../settings.ts";
import { storedVoice } from "./stored.ts";
import { exportVoice, importVoice, unreadablyLargeVoice } from "./voice-file.ts";

/** What the list of people needs of the world. */
export interface PeopleWorld {
  readonly voices: Notebook["voices"];
  readonly settings: () => Pick<Settings, "speaker">;
  readonly changeSettings: (change: Partial<Settings>) => Promise<void>;
  /** Does what may fail; a failure becomes a notice and `false`. */
  readonly guard: (work: () => Promise<void>) => Promise<boolean>;
  readonly newId: () => string;
  /** SHA-256 of the weights of the model that listens, base64url. Rejects where it cannot be loaded. */
  readonly base: () => Promise<string>;
  readonly readBytes: (file: Blob) => Promise<Uint8Array>;
}

/** What came of the file that was brought in last. */
export interface BroughtIn {
  readonly kept: boolean;
  readonly sentences: readonly string[];
}

/** The people whose voices this device knows. Nothing here rejects. */
export class People {
  /** By name. */
  readonly voices = signal<readonly VoiceProfile[]>([]);
  /** Rows of the notebook that are no profile any more, by their ids. */
  readonly damaged = signal<readonly string[]>([]);
  /** The one that was deleted last, until another thing is done: it can be brought back. */
  readonly dropped = signal<VoiceProfile | null>(null);
  readonly broughtIn = signal<BroughtIn | null>(null);
  /** Which model listens now; null where that is not known. */
  readonly base = signal<string | null>(null);
  readonly #world: PeopleWorld;
  /** Whether the one that was deleted last was the one who speaks. */
  #droppedSpoke = false;

  constructor(world: PeopleWorld) {
    this.#world = world;
  }

  /** Lists anew what is in the notebook. */
  async load(): Promise<void> {
    this.#forget();
    await this.#world.guard(() => this.#list());
    // Nothing is fetched for nobody. Without it nothing is said of older ears; what is used is checked where it is used.
    if (this.voices.value.length > 0) this.base.value = await this.#world.base().catch(() => null);
  }

  find(id: string): VoiceProfile | null {
    return this.voices.value.find((voice) => voice.id === id) ?? null;
  }

  /** Whether it was taught to the model that listens now. */
  fits({ spotter }: Pick<VoiceProfile, "spotter">): boolean {
    return this.base.value === null || spotter.base === this.base.value;
  }

  /** Keeps one that was taught, and listens to it from now on. Rejects where it cannot be stored. */
  async keep(profile: VoiceProfile): Promise<void> {
    // The key words are taught anew; what the phrase recogniser learned of this person stays.
    const phones = storedVoice(await this.#world.voices.get(profile.id))?.phones;
    await this.#world.voices.keep(phones ? { ...profile, phones } : profile);
    this.#forget();
    await this.choose(profile.id);
    await this.#world.guard(() => this.#list());
  }

  /** Who speaks from now on; null for nobody in particular. */
  async choose(id: string | null): Promise<void> {
    await this.#world.changeSettings({ speaker: id });
  }

  async switch(id: string, on: boolean): Promise<void> {
    await this.#change(async () => {
      const { voices } = this.#world;
      // As it lies there now: another window may have deleted it, or learned more.
      const voice = storedVoice(await voices.get(id));
      if (voice) await voices.keep({ ...voice, on });
    });
  }

  /** Deletes one at once: what is here of a person goes when he says so. It can be brought back as long as this page shows it. */
  async remove(id: string): Promise<void> {
    const voice = this.find(id);
    if (!(await this.#change(() => this.#world.voices.drop(id)))) return;
    this.dropped.value = voice;
    this.#droppedSpoke = this.#world.settings().speaker === id;
    if (this.#droppedSpoke) await this.choose(null);
  }

  /** Brings it back as it was, the one who speaks if it was that. */
  async undo(): Promise<void> {
    const voice = this.dropped.value;
    if (!voice || !(await this.#change(() => this.#world.voices.keep(voice)))) return;
    // Unless somebody else was chosen since.
    if (this.#droppedSpoke && this.#world.settings().speaker === null) await this.choose(voice.id);
  }

  /** Hands one over as a file; its name, or null where there is none. */
  export(id: string): string | null {
    const voice = this.find(id);
    if (!voice) return null;
    const name = voiceFileName(voice.name);
    download(name, exportVoice(voice));
    return name;
  }

  /** Takes in a file; a bad one changes nothing. */
  async bringIn(file: File): Promise<void> {
    this.#forget();
    let came: BroughtIn | null = null;
    await this.#world.guard(async () => {
      came = await this.#taken(file);
    });
    this.broughtIn.value = came;
  }

  /** What was told and what can be brought back is over. */
  close(): void {
    this.#forget();
  }

  async #taken(file: File): Promise<BroughtIn> {
    const refused = (sentences: readonly string[]): BroughtIn => ({ kept: false, sentences });
    const large = unreadablyLargeVoice(file.size);
    if (large) return refused([large.message]);
    const read = importVoice(await this.#world.readBytes(file));
    if (!read.ok)
      return refused(
        read.problems.map(({ path, message }) => (path === "" ? message : `${path}: ${message}`)),
      );
    const { voice } = read;
    const base = await this.#world.base();
    if (voice.spotter.base !== base)
      return refused([`The voice of ${quoted(voice.name)} was taught to an older ear: teach it again.`]);
    const twin = this.voices.value.find(
      ({ name, taughtAt }) => name === voice.name && taughtAt === voice.taughtAt,
    );
    if (twin) return refused([`The voice of ${quoted(voice.name)} is here already.`]);
    await this.#world.voices.keep({ ...voice, id: this.#world.newId(), on: true });
    await this.#list();
    return {
      kept: true,
      sentences: [
        `The voice of ${quoted(voice.name)} is here now: choose it under “Who speaks now” to use it.`,
      ],
    };
  }

  async #change(work: () => Promise<void>): Promise<boolean> {
    this.#forget();
    return this.#world.guard(async () => {
      await work();
      await this.#list();
    });
  }

  #forget(): void {
    this.dropped.value = null;
    this.broughtIn.value = null;
  }

  async #list(): Promise<void> {
    const rows = await this.#world.voices.all();
    const voices = rows.flatMap((row) => storedVoice(row) ?? []);
    this.voices.value = voices.toSorted((a, b) => a.name.localeCompare(b.name, "en"));
    const whole = new Set(voices.map(({ id }) => id));
    this.damaged.value = rows.map(idOf).filter((id) => !whole.has(id));
  }
}

function idOf(row: unknown): string {
  return typeof row === "object" && row !== null && "id" in row ? String(row.id) : "";
}

/** The file's name; letters and figures of any script, and nothing else. */
function voiceFileName(name: string): string {
  const words =
    name
      .normalize("NFC")
      .toLowerCase()
      .match(/[\p{L}\p{M}\p{N}]+/gu) ?? [];
  return `own-voice-${[...words.join("-")].slice(0, 60).join("").replace(/-$/, "") || "unnamed"}.json`;
}
