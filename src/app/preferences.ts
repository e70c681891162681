import { signal } from "@preact/signals";
import type { Notebook } from "../device/notebook/notebook.ts";
import { FIRST_SETTINGS, Settings } from "./settings.ts";

/** Where the notebook keeps the settings. */
export const SETTINGS_KEY = "settings";

/** What the person chose for this device, as it is stored. */
export class Preferences {
  readonly chosen = signal<Settings>(FIRST_SETTINGS);
  readonly #notebook: Notebook;
  /** One change after the other: each goes on from what the one before stored. Never rejects. */
  #before: Promise<unknown> = Promise.resolve();

  constructor(notebook: Notebook) {
    this.#notebook = notebook;
  }

  /** Reads what is stored. Rejects where the notebook cannot be read. */
  async load(): Promise<void> {
    this.chosen.value = await this.#stored();
  }

  /** Rejects where it cannot be stored; nothing has changed then. */
  async change(change: Partial<Settings>): Promise<void> {
    const changed = this.#before.then(() => this.#change(change));
    this.#before = changed.catch(() => undefined);
    try {
      await changed;
    } catch (error) {
      // What shows the choice shows again what is stored.
      this.chosen.value = { ...this.chosen.value };
      throw error;
    }
  }

  async #change(change: Partial<Settings>): Promise<void> {
    // Another window may have changed something else, such as that no sound is kept.
    const settings = { ...(await this.#stored()), ...change };
    // Off means none: that nothing is kept and that all is gone are stored as one.
    await (settings.keepClips
      ? this.#notebook.keepSetting(SETTINGS_KEY, settings)
      : this.#notebook.clips.dropAll(SETTINGS_KEY, settings));
    this.chosen.value = settings;
  }

  async #stored(): Promise<Settings> {
    const stored = Settings.safeParse(await this.#notebook.setting(SETTINGS_KEY));
    return stored.success ? stored.data : this.chosen.value;
  }
}
