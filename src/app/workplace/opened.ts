import type { Afterwards, AfterwardsWorld } from "../afterwards/afterwards.ts";
import type { Office } from "../office/office.ts";
import type { OfficePart } from "../place.ts";
import type { Records } from "../record/records.ts";
import type { Signing } from "../safekeeping/signing.ts";
import type { Clips } from "../sound/clips.ts";
import type { World } from "../world.ts";
import type { LateMind } from "./late-mind.ts";

/** What the later screens stand on. */
export interface OpenedWorld
  extends Pick<World, "office" | "installed" | "now">,
    Pick<AfterwardsWorld, "open" | "keepName" | "breathe"> {
  readonly mind: LateMind;
  readonly clips: Clips;
  readonly signing: Signing;
  /** A visit may have gone on: what was known of it is forgotten. */
  readonly changed: () => void;
}

/**
 * What is loaded with the first screen that shows it, and kept from then on: the visit that is looked through, the record,
 * the office. A getter throws where its screen was not opened yet: a fault of the screen. What opens rejects where it fails.
 */
export class Opened {
  readonly #world: OpenedWorld;
  #afterwards: Afterwards | null = null;
  #office: Office | null = null;
  #records: Records | null = null;

  constructor(world: OpenedWorld) {
    this.#world = world;
  }

  /** The visit that is looked through. */
  get afterwards(): Afterwards {
    if (!this.#afterwards) throw new Error("No visit is looked through.");
    return this.#afterwards;
  }

  /** The visits of many. */
  get office(): Office {
    if (!this.#office) throw new Error("The office is not open.");
    return this.#office;
  }

  /** The record that is shown. */
  get records(): Records {
    if (!this.#records) throw new Error("No record was opened.");
    return this.#records;
  }

  async lookThrough(visitId: string): Promise<void> {
    const { mind, clips, open, keepName, breathe, signing } = this.#world;
    const { lookThrough } = await mind.load();
    this.#afterwards ??= await lookThrough({ open, keepName, breathe, look: (id) => signing.look(id) });
    await this.#afterwards.open(visitId);
    await clips.open(visitId);
  }

  async openOffice(part: OfficePart): Promise<void> {
    this.#office = await this.#world.office();
    await this.#office.open(part);
    if (part.kind === "visit") await this.#readyRecords();
  }

  async openRecord(visitId: string): Promise<void> {
    await (await this.#readyRecords()).look(visitId);
  }

  /** Nothing is looked through any more. */
  async closeAfterwards(): Promise<void> {
    if (!this.#afterwards?.session.value) return;
    this.#afterwards.close();
    this.#world.changed();
    await this.#world.clips.open(null);
  }

  /** No record is shown any more. */
  closeRecord(): void {
    this.#records?.close();
  }

  async #readyRecords(): Promise<Records> {
    const { makeRecords } = await import("../record/make-records.ts");
    const { signing, breathe, now, installed } = this.#world;
    this.#records ??= makeRecords({
      signing,
      breathe,
      now,
      fetchAhead: () => installed.ahead.need("pdf"),
    });
    return this.#records;
  }
}
