import { signal } from "@preact/signals";
import { download } from "../../device/files.ts";
import type { Notebook } from "../../device/notebook/notebook.ts";
import type { Details } from "../../visit/details.ts";
import type { Entry } from "../../visit/entry.ts";
import type { Sheet } from "../../visit/sheet.ts";
import type { Visit, VisitHead } from "../../visit/visit.ts";
import { noteHanded } from "../backup/note-handed.ts";
import type { Signed, Signing } from "../safekeeping/signing.ts";
import { fileNameOf } from "./visit-title.ts";

const RUNNING = "running-visit";

/** What storing visits needs of the world. */
export interface VisitShelfWorld {
  readonly notebook: Notebook;
  readonly newId: () => string;
  readonly now: () => string;
  readonly zone: () => string | null;
  readonly signing: Signing;
}

/** The visits in the notebook, and which of them is being worked on. Everything rejects where the notebook does. */
export class VisitShelf {
  /** Newest first. */
  readonly heads = signal<readonly VisitHead[]>([]);
  readonly #world: VisitShelfWorld;

  constructor(world: VisitShelfWorld) {
    this.#world = world;
  }

  /** The id of the visit that was gone on with last and not left; null where there is none. */
  async running(): Promise<string | null> {
    const id = await this.#world.notebook.setting(RUNNING);
    return typeof id === "string" ? id : null;
  }

  /** Null leaves the one that runs. */
  async run(id: string | null): Promise<void> {
    await this.#world.notebook.keepSetting(RUNNING, id);
  }

  /** Adds a visit that begins now, with its details where some are known already; its id. */
  async add(
    chosen: Pick<VisitHead, "title" | "fuel" | "units"> & { sheet: Sheet | null },
    details: Details | null = null,
  ): Promise<string> {
    const { notebook, newId, now, zone } = this.#world;
    const head: VisitHead = { id: newId(), startedAt: now(), zone: zone(), ...chosen };
    const entries: Entry[] = details
      ? [
          {
            id: newId(),
            seq: 0,
            at: head.startedAt,
            engine: "typed",
            phrase: "",
            said: "",
            confidence: 1,
            body: { kind: "details", details },
          },
        ]
      : [];
    await notebook.addVisit({ format: "burnerside-visit/1", head, entries }, "here");
    return head.id;
  }

  /** A visit as it stands. */
  visit(id: string): Promise<Visit> {
    return this.#world.notebook.visit(id);
  }

  /** A visit as it is handed over: signed, where it is finished. */
  handOver(id: string): Promise<Signed> {
    return this.#world.signing.handOver(id);
  }

  /** What can be said of the log of a visit that is no one of the notebook. */
  examine(visit: Visit): Promise<Signed> {
    return this.#world.signing.examine(visit);
  }

  /** Thumbprint of this device's key; null where it has none. */
  thumbprint(): Promise<string | null> {
    return this.#world.signing.thumbprint();
  }

  /** Hands over a visit as a JSON file, signed where it is finished: its name, and what there is to know of its log. */
  async export(id: string): Promise<{ readonly name: string; readonly notice: string | null }> {
    const { notebook, now } = this.#world;
    const signed = await this.handOver(id);
    const { visit } = signed;
    const name = fileNameOf(visit.head);
    const [{ exportVisit }, { logNotice }] = await Promise.all([
      import("../../record/bundle.ts"),
      import("../exports/log-notice.ts"),
    ]);
    download(name, exportVisit(visit));
    await noteHanded(notebook, [{ visitId: id, entries: visit.entries.length, at: now() }]);
    return { name, notice: logNotice(signed) };
  }

  /** Deletes a visit for good, with its sound. */
  async remove(id: string): Promise<void> {
    await this.#world.notebook.dropVisit(id);
    if ((await this.running()) === id) await this.run(null);
  }
}
