import { computed, signal } from "@preact/signals";
import { z } from "zod";
import { after } from "../../device/clock.ts";
import { download } from "../../device/files.ts";
import type { Notebook } from "../../device/notebook/notebook.ts";
import type { UnitSystem } from "../../measure/firing.ts";
import type { Sheet } from "../../visit/sheet.ts";
import { copyOf, draftOf, emptyDraft, SheetDraft } from "./draft.ts";

/** What the sheets need of the world. */
export interface SheetWorld {
  readonly notebook: Pick<Notebook, "keepSheet" | "dropSheet" | "setting" | "keepSetting">;
  readonly demo: readonly Sheet[];
  readonly newId: () => string;
  readonly units: () => UnitSystem;
  /** The day where the device is, as YYYY-MM-DD. */
  readonly today: () => string;
  /** Does what may fail; a failure becomes a notice and `false`. */
  readonly guard: (work: () => Promise<void>) => Promise<boolean>;
}

/** A sheet's form that is not kept yet, by the id in its address; the new sheet's is empty. */
interface Unsaved {
  readonly key: string;
  readonly draft: SheetDraft;
}

const UNSAVED = "sheet-drafts";
const Stored = z.array(z.strictObject({ key: z.string(), draft: SheetDraft }));
/** How long the typing has to pause before a form is stored: not every letter is written to the disk. */
const PAUSE_MS = 400;

/** The limits sheets of this device, and their forms that are under way. Nothing here rejects. */
export class SheetShelf {
  readonly own = signal<readonly Sheet[]>([]);
  readonly unsaved = signal<readonly Unsaved[]>([]);
  /** Sheets that can be chosen: the person's own before the demo's. */
  readonly all = computed(() => {
    const own = this.own.value;
    const ids = new Set(own.map((sheet) => sheet.id));
    return [...own, ...this.#world.demo.filter((sheet) => !ids.has(sheet.id))];
  });
  readonly #world: SheetWorld;
  #stopWaiting: (() => void) | null = null;

  constructor(world: SheetWorld) {
    this.#world = world;
  }

  /** Reads the forms that were under way. What cannot be read any more is left out. */
  async load(): Promise<void> {
    const stored = Stored.safeParse(await this.#world.notebook.setting(UNSAVED));
    this.unsaved.value = stored.success ? stored.data : [];
  }

  isDemo(sheet: Sheet): boolean {
    return !this.own.value.some((own) => own.id === sheet.id);
  }

  find(id: string): Sheet | null {
    return this.all.value.find((sheet) => sheet.id === id) ?? null;
  }

  get today(): string {
    return this.#world.today();
  }

  /** The form of an address (null for a new sheet): as it was left, else as the sheet is. Null where there is neither. */
  draft(id: string | null): SheetDraft | null {
    const left = this.unsaved.value.find(({ key }) => key === (id ?? ""));
    if (left) return left.draft;
    if (id === null) return emptyDraft(this.#world.newId(), this.today, this.#world.units());
    const sheet = this.own.value.find((one) => one.id === id);
    return sheet ? draftOf(sheet) : null;
  }

  /** Begins a copy; the id of its form's address. */
  async copy(sheet: Sheet): Promise<string> {
    const draft = copyOf(sheet, this.#world.newId(), this.today, this.isDemo(sheet));
    this.hold(draft.id, draft);
    await this.store();
    return draft.id;
  }

  /** Holds a form as it now is; it is stored when the typing pauses. */
  hold(key: string, draft: SheetDraft): void {
    this.unsaved.value = [...this.unsaved.value.filter((one) => one.key !== key), { key, draft }];
    this.#stopWaiting?.();
    this.#stopWaiting = after(PAUSE_MS, () => void this.store());
  }

  /** Stores the forms at once. */
  async store(): Promise<void> {
    this.#stopWaiting?.();
    this.#stopWaiting = null;
    await this.#world.guard(() => this.#world.notebook.keepSetting(UNSAVED, this.unsaved.value));
  }

  /** Forgets a form's changes. */
  async discard(key: string): Promise<void> {
    this.unsaved.value = this.unsaved.value.filter((one) => one.key !== key);
    await this.store();
  }

  /** Keeps a sheet in place of an earlier one with its id; whether it is on the disk. */
  async keep(sheet: Sheet): Promise<boolean> {
    return this.#world.guard(async () => {
      await this.#world.notebook.keepSheet(sheet);
      this.own.value = [...this.own.value.filter(({ id }) => id !== sheet.id), sheet];
    });
  }

  /** Deletes a sheet for good. Visits keep their copies. */
  async remove(sheet: Sheet): Promise<void> {
    await this.#world.guard(async () => {
      await this.#world.notebook.dropSheet(sheet.id);
      this.own.value = this.own.value.filter(({ id }) => id !== sheet.id);
    });
    await this.discard(sheet.id);
  }

  /** Hands over a sheet as a JSON file named by its title; the name, or null where that failed. */
  async export(sheet: Sheet): Promise<string | null> {
    let handed: string | null = null;
    await this.#world.guard(async () => {
      const { exportSheet, sheetFileName } = await import("../../record/sheet-file.ts");
      const name = sheetFileName(sheet.title);
      download(name, exportSheet(sheet));
      handed = name;
    });
    return handed;
  }
}
