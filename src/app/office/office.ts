import { batch, computed, type ReadonlySignal, signal } from "@preact/signals";
import type { DoneMark, OfficeStore } from "../../device/office/store.ts";
import { capital } from "../../measure/capital.ts";
import { epochMs } from "../../measure/instant.ts";
import { applianceKey, type History, historiesOf } from "../../record/office/drift.ts";
import type { FollowUp } from "../../record/office/follow-ups.ts";
import type { KeptVisit } from "../../record/office/kept.ts";
import type { Visit } from "../../visit/visit.ts";
import type { OfficePart } from "../place.ts";
import type { ExportKind } from "./export-kinds.ts";
import { followUpList } from "./follow-up-list.ts";
import type { Helper } from "./helper.ts";
import {
  ALL,
  type ListedVisit,
  listed,
  NEWEST,
  narrowed,
  type Sorting,
  sorted,
  type Wanted,
} from "./search.ts";
import { NOTHING_YET, type Progress, type Told } from "./take-in.ts";

/** What the office needs of the world. */
export interface OfficeWorld {
  readonly store: OfficeStore;
  readonly helper: Helper;
  /** ISO 8601. */
  readonly now: () => string;
  /** The day here and now, YYYY-MM-DD. */
  readonly today: () => string;
  readonly visitOf: (text: string) => Visit;
  readonly download: (name: string, file: Blob) => void;
  /** Why something failed, without a full stop. */
  readonly reason: (error: unknown) => string;
}

/** How taking in files stands. */
export interface TakingIn {
  readonly stand: "running" | "done" | "stopped" | "failed";
  readonly progress: Progress;
  /** Why files were not taken in: the first of them. */
  readonly sentences: readonly string[];
  /** Why it failed; "" where it did not. */
  readonly failure: string;
}

/** How often the list is drawn anew while files are taken in, ms. */
const LIST_MS = 700;

/** So many sentences are told; of the others, how many there are. */
export const MOST_SENTENCES = 50;

/** The visit that is looked at: what stands, or one of its revisions. */
export interface OpenVisit {
  readonly kept: ListedVisit;
  /** Of the revision that is shown. */
  readonly number: number;
  readonly visit: Visit;
}

/** The visits of many: taken in, listed, narrowed and sorted, looked at, handed over and deleted. Nothing here rejects. */
export class Office {
  readonly taking = signal<TakingIn | null>(null);
  readonly wanted = signal<Wanted>(ALL);
  readonly sorting = signal<Sorting>(NEWEST);
  /** What failed, or cannot be read; "" where nothing did. */
  readonly problem = signal("");
  /** What was just done, in one sentence. */
  readonly said = signal("");
  readonly opened = signal<OpenVisit | null>(null);
  /** How many visits are being judged anew, as this program judges otherwise than the one that took them in. */
  readonly judgingAnew = signal(0);
  /** The visit that was looked at last: the list comes back to it. */
  lookedAt: string | null = null;
  /** What is being made to be handed over. */
  readonly exporting = signal<ExportKind | null>(null);
  readonly #kept = signal<ReadonlyMap<string, KeptVisit>>(new Map());
  readonly #done = signal<ReadonlyMap<string, DoneMark>>(new Map());
  /** What was marked as done, by the follow-up's key. */
  readonly done: ReadonlySignal<ReadonlyMap<string, DoneMark>> = this.#done;
  /** Taken in, and not in the list yet. */
  readonly #waiting = new Map<string, KeptVisit>();
  #listedAt = 0;
  #isListed = false;
  readonly #world: OfficeWorld;

  /** All visits, each with what searching needs. */
  readonly visits = computed((): readonly ListedVisit[] => {
    const done = new Set(this.#done.value.keys());
    return [...this.#kept.value.values()].map((kept) => listed(kept, done));
  });
  readonly #sorted = computed(() => sorted(this.visits.value, this.sorting.value));
  /** What the table shows. */
  readonly shown = computed(() => narrowed(this.#sorted.value, this.wanted.value));
  readonly histories = computed(() => historiesOf(this.visits.value.map(({ row }) => row)));
  /** Visits that are in no history: they have no appliance number. */
  readonly unnumbered = computed(() => this.visits.value.filter(({ row }) => applianceKey(row) === null));
  readonly followUps = computed(() => followUpList(this.visits.value, this.#done.value, this.#world.today()));

  constructor(world: OfficeWorld) {
    this.#world = world;
    world.store.onChange(() => {
      this.#isListed = false;
    });
  }

  /** Reads what a part of the office needs; the list too, where it was not read yet or somebody else has changed it. */
  async open(part: OfficePart): Promise<void> {
    this.said.value = "";
    await this.#guard(async () => {
      if (!this.#isListed && this.taking.value?.stand !== "running") await this.#list();
      if (part.kind === "visit") await this.#show(part.id, null);
      else this.opened.value = null;
    });
  }

  /** Shows one revision of the visit that is looked at. */
  async show(id: string, number: number): Promise<void> {
    await this.#guard(() => this.#show(id, number));
  }

  /** Takes in files, as soon as a drop has told them all. While that runs another call is refused. */
  async takeIn(handed: readonly File[] | Promise<readonly File[]>): Promise<void> {
    await this.#guard(async () => {
      const files = await handed;
      if (files.length === 0) return;
      if (this.taking.value?.stand === "running")
        throw new Error("Files are being taken in: hand over more when that is done, or stop it");
      await this.#takeIn(files);
    });
  }

  async #takeIn(files: readonly File[]): Promise<void> {
    const progress: Progress = { ...NOTHING_YET, of: files.length };
    this.taking.value = { stand: "running", progress, sentences: [], failure: "" };
    try {
      const stopped = await this.#world.helper.take(files, (told) => this.#told(told));
      this.#ended(stopped ? "stopped" : "done", "");
    } catch (error) {
      this.#ended("failed", this.#world.reason(error));
    }
  }

  /** Stops taking in; what was taken in stays. */
  stop(): void {
    this.#world.helper.stop();
  }

  /** What came of the last taking in is read. */
  closeTaking(): void {
    if (this.taking.value?.stand !== "running") this.taking.value = null;
  }

  narrow(change: Partial<Wanted>): void {
    this.wanted.value = { ...this.wanted.value, ...change };
  }

  /** Sorts by a column; by the one that it is sorted by, the other way. */
  sortBy(column: Sorting["column"]): void {
    const { column: before, descending } = this.sorting.value;
    this.sorting.value = { column, descending: column === before ? !descending : column === "day" };
  }

  /** Hands over what stands of visits as one file. */
  async export(what: ExportKind, ids: readonly string[], name: string): Promise<void> {
    await this.#guard(async () => {
      this.exporting.value = what;
      try {
        this.#world.download(name, await this.#world.helper.export(what, ids));
        this.said.value = `Exported: ${name}`;
      } finally {
        this.exporting.value = null;
      }
    });
  }

  /** Deletes a visit from the office for good, with its revisions and what was marked as done. */
  async drop(id: string): Promise<boolean> {
    return this.#guard(async () => {
      await this.#world.store.dropVisit(id);
      batch(() => {
        this.#kept.value = without(this.#kept.value, id);
        this.#done.value = new Map([...this.#done.value].filter(([, mark]) => mark.visitId !== id));
      });
    });
  }

  /** Deletes everything that the office keeps, for good. */
  async dropAll(): Promise<boolean> {
    return this.#guard(async () => {
      await this.#world.store.dropAll();
      batch(() => {
        this.taking.value = null;
        this.#kept.value = new Map();
        this.#done.value = new Map();
      });
    });
  }

  /** Marks a follow-up as done. */
  async markDone({ key, visitId }: FollowUp, by: string): Promise<void> {
    await this.#guard(async () => {
      const mark: DoneMark = { key, visitId, at: this.#world.now(), by: by.trim() };
      await this.#world.store.markDone(mark);
      this.#done.value = new Map([...this.#done.value, [key, mark]]);
    });
  }

  async undoDone({ key }: FollowUp): Promise<void> {
    await this.#guard(async () => {
      await this.#world.store.undoDone(key);
      this.#done.value = without(this.#done.value, key);
    });
  }

  /** The history of an appliance by its key; null where no visit has it. */
  history(key: string): History | null {
    return this.histories.value.find((history) => applianceKey(history) === key) ?? null;
  }

  get today(): string {
    return this.#world.today();
  }

  async #list(): Promise<void> {
    const old = await this.#read();
    // The others are shown meanwhile.
    if (old.length > 0) void this.#guard(() => this.#judgeAnew(old));
  }

  async #judgeAnew(old: readonly string[]): Promise<void> {
    this.judgingAnew.value = old.length;
    try {
      await this.#world.helper.judgeAnew(old);
    } finally {
      this.judgingAnew.value = 0;
    }
    const damaged = (await this.#read()).length;
    if (damaged > 0)
      this.problem.value = `What the office keeps of ${damaged === 1 ? "one visit" : `${damaged} visits`} is damaged and not shown: take the files in again.`;
  }

  /** Reads the list; ids of what cannot be listed as it is. */
  async #read(): Promise<readonly string[]> {
    this.#isListed = true;
    const [{ whole, damaged }, done] = await Promise.all([
      this.#world.store.visits(),
      this.#world.store.done(),
    ]);
    batch(() => {
      this.#kept.value = new Map(whole.map((kept) => [kept.id, kept]));
      this.#done.value = new Map(done.map((mark) => [mark.key, mark]));
    });
    return damaged;
  }

  async #show(id: string, number: number | null): Promise<void> {
    this.lookedAt = id;
    const kept = this.visits.value.find((visit) => visit.id === id);
    const wanted = number ?? kept?.revisions[0]?.number;
    if (!kept || wanted === undefined) {
      this.opened.value = null;
      return;
    }
    const text = await this.#world.store.text(id, wanted);
    if (text === null) throw new Error("This visit is not in the office any more");
    this.opened.value = { kept, number: wanted, visit: this.#world.visitOf(text) };
  }

  #told({ progress, changed, sentences }: Told): void {
    for (const visit of changed) this.#waiting.set(visit.id, visit);
    const before = this.taking.value;
    batch(() => {
      // The list is drawn anew now and then: with every batch it would hold up what is tapped.
      if (epochMs(this.#world.now()) - this.#listedAt >= LIST_MS) this.#takeOver();
      if (before)
        this.taking.value = {
          ...before,
          progress,
          sentences: [...before.sentences, ...sentences].slice(0, MOST_SENTENCES),
        };
    });
  }

  /** Puts what was taken in since the last time into the list. */
  #takeOver(): void {
    this.#listedAt = epochMs(this.#world.now());
    if (this.#waiting.size === 0) return;
    this.#kept.value = new Map([...this.#kept.value, ...this.#waiting]);
    this.#waiting.clear();
  }

  #ended(stand: TakingIn["stand"], failure: string): void {
    const before = this.taking.value;
    batch(() => {
      this.#takeOver();
      if (before) this.taking.value = { ...before, stand, failure };
    });
  }

  async #guard(work: () => Promise<void>): Promise<boolean> {
    try {
      await work();
      return true;
    } catch (error) {
      this.problem.value = `${capital(this.#world.reason(error))}.`;
      return false;
    }
  }
}

function without<T>(map: ReadonlyMap<string, T>, key: string): ReadonlyMap<string, T> {
  return new Map([...map].filter(([each]) => each !== key));
}
