import { computed, type ReadonlySignal, type Signal, signal } from "@preact/signals";
import { checkSheet, type SheetCheck } from "./check.ts";
import type { SheetDraft } from "./draft.ts";
import type { FieldNote } from "./parts.ts";
import type { SheetShelf } from "./shelf.ts";

/** The form of one sheet while it is open: its texts, what is wrong with them, and what of that is shown by now. */
export class SheetForm {
  readonly draft: Signal<SheetDraft>;
  readonly check: ReadonlySignal<SheetCheck>;
  /** Whether there is something that was not kept. */
  readonly changed: ReadonlySignal<boolean>;
  /** Somebody wanted to keep it: from then on also what is only missing is shown at its field. */
  readonly attempted = signal(false);
  readonly key: string;
  readonly #shelf: SheetShelf;
  readonly #touched = signal<ReadonlySet<string>>(new Set());

  /** @param key the id in the form's address, empty for a new sheet's */
  constructor(shelf: SheetShelf, key: string, draft: SheetDraft) {
    this.#shelf = shelf;
    this.key = key;
    this.draft = signal(draft);
    this.check = computed(() =>
      checkSheet(this.draft.value, {
        otherTitles: shelf.all.value.filter(({ id }) => id !== draft.id).map(({ title }) => title),
        today: shelf.today,
      }),
    );
    this.changed = computed(() => shelf.unsaved.value.some((one) => one.key === key));
  }

  change(change: Partial<SheetDraft>): void {
    this.draft.value = { ...this.draft.value, ...change };
    this.#shelf.hold(this.key, this.draft.value);
  }

  /** The person was at a field and left it. */
  touch(path: string): void {
    this.#touched.value = new Set([...this.#touched.value, path]);
  }

  /** What is wrong at just this place, as far as it is shown by now. */
  problemsAt(path: string): readonly FieldNote[] {
    return this.#shownAt(path, this.check.value.problems);
  }

  doubtsAt(path: string): readonly FieldNote[] {
    return this.#shownAt(path, this.check.value.doubts);
  }

  /** What is not there is told once somebody was there. */
  #shownAt(path: string, notes: readonly FieldNote[]): readonly FieldNote[] {
    const touched = [...this.#touched.value].some((one) => one === path || one.startsWith(`${path}.`));
    const told = this.attempted.value || touched;
    return notes.filter((one) => one.path === path && (!one.isEmpty || told));
  }

  /** Keeps the sheet; whether it is on the disk. */
  async save(): Promise<boolean> {
    this.attempted.value = true;
    const { sheet } = this.check.value;
    if (!sheet || !(await this.#shelf.keep(sheet))) return false;
    await this.#shelf.discard(this.key);
    return true;
  }
}
