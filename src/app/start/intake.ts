import { signal } from "@preact/signals";
import { readBytes } from "../../device/files.ts";
import type { Notebook } from "../../device/notebook/notebook.ts";
import { capital } from "../../measure/capital.ts";
import type { BackupKind } from "../../record/backup/kind.ts";
import type { Sheet } from "../../visit/sheet.ts";
import type { Visit } from "../../visit/visit.ts";
import { noteHanded } from "../backup/note-handed.ts";
import type { Restoring } from "../backup/restoring.ts";
import type { Signing } from "../safekeeping/signing.ts";
import type { SheetShelf } from "../sheets/shelf.ts";
import { titleOf } from "./visit-title.ts";

/** What came of the file that was brought in last. */
export type Outcome =
  | {
      readonly kind: "kept";
      readonly sentence: string;
      /** What there is to say of a visit's log, a sentence each; none of anything else. */
      readonly log: readonly string[];
      /** Whether somebody changed it before it came. */
      readonly altered: boolean;
    }
  /** Nothing was stored; every reason, with file and place. */
  | { readonly kind: "refused"; readonly sentences: readonly string[] }
  /** A sheet of the same id is here already, and says something else. */
  | { readonly kind: "taken"; readonly incoming: Sheet; readonly here: Sheet }
  /** A backup: looked through, and restored when that is asked for. */
  | { readonly kind: "backup"; readonly restoring: Restoring };

/** What taking in a file needs of the world. */
export interface IntakeWorld {
  readonly notebook: Pick<Notebook, "addVisit" | "markHanded">;
  readonly signing: Pick<Signing, "examine">;
  readonly shelf: SheetShelf;
  readonly newId: () => string;
  readonly now: () => string;
  /** Rejects where what restores cannot be loaded. */
  readonly restoring: (file: File, kind: BackupKind) => Promise<Restoring>;
  /** Lists anew what is in the notebook. */
  readonly list: () => Promise<void>;
  /** Why something failed, without a full stop. */
  readonly reason: (error: unknown) => string;
}

/** Takes in a limits sheet, a visit bundle or a backup; a bad file changes nothing that is stored. Nothing here rejects. */
export class Intake {
  readonly outcome = signal<Outcome | null>(null);
  readonly #world: IntakeWorld;

  constructor(world: IntakeWorld) {
    this.#world = world;
  }

  async take(file: File): Promise<void> {
    this.outcome.value = null;
    await this.#try(async () => {
      const { backupKindOf, readImport, unreadablyLarge } = await import("./import-file.ts");
      const backup = await backupKindOf(file);
      if (backup) return { kind: "backup", restoring: await this.#world.restoring(file, backup) };
      const imported = unreadablyLarge(file) ?? readImport(file.name, await readBytes(file));
      switch (imported.kind) {
        case "bad":
          return { kind: "refused", sentences: imported.sentences };
        case "sheet":
          return this.#sheet(imported.sheet);
        case "visit":
          return this.#visit(imported.visit);
      }
    });
  }

  /** The answer to a sheet whose id is taken: in place of the one that is here, or beside it. */
  async settle(way: "replace" | "both"): Promise<void> {
    const asked = this.outcome.value;
    if (asked?.kind !== "taken") return;
    const { incoming } = asked;
    await this.#try(() =>
      this.#keep(way === "replace" ? incoming : { ...incoming, id: this.#world.newId() }),
    );
  }

  close(): void {
    this.outcome.value = null;
  }

  async #visit(visit: Visit): Promise<Outcome> {
    const { notebook, list, now } = this.#world;
    const { head, entries } = visit;
    await notebook.addVisit(visit, "file");
    // The file that it came in can bring it back.
    await noteHanded(notebook, [{ visitId: head.id, entries: entries.length, at: now() }]);
    await list();
    const { logOnImport } = await import("./import-file.ts");
    const signed = await this.#world.signing.examine(visit);
    return { kind: "kept", sentence: `Visit kept: ${titleOf(head)}.`, ...logOnImport(signed) };
  }

  async #sheet(incoming: Sheet): Promise<Outcome | null> {
    const here = this.#world.shelf.own.value.find(({ id }) => id === incoming.id);
    if (here && JSON.stringify(here) !== JSON.stringify(incoming)) return { kind: "taken", incoming, here };
    return this.#keep(incoming);
  }

  async #keep(sheet: Sheet): Promise<Outcome | null> {
    const kept = await this.#world.shelf.keep(sheet);
    if (!kept) return null;
    return { kind: "kept", sentence: `Limits sheet kept: ${sheet.title}.`, log: [], altered: false };
  }

  async #try(work: () => Promise<Outcome | null>): Promise<void> {
    try {
      this.outcome.value = await work();
    } catch (error) {
      this.outcome.value = { kind: "refused", sentences: [`${capital(this.#world.reason(error))}.`] };
    }
  }
}
