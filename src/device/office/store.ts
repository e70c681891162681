import Dexie, { type Table } from "dexie";
import type { Export, KeptVisit, Merged, Revision, TakenAs } from "../../record/office/kept.ts";
import type { Visit } from "../../visit/visit.ts";
import { nativeVersion, newerProblem } from "../newer.ts";
import { reasonOf } from "../notebook/trouble.ts";

/** A follow-up that somebody in the office has marked as done. */
export interface DoneMark {
  readonly key: string;
  readonly visitId: string;
  /** ISO 8601. */
  readonly at: string;
  readonly by: string;
}

/** What came of one export: how it was taken, and what the list now says of its visit; null where nothing changed. */
export interface Taken {
  readonly as: TakenAs;
  readonly kept: KeptVisit | null;
}

/** The pure functions that the store works by. */
export interface OfficeRules {
  merge(known: readonly Revision[], incoming: Export, visitOf: (text: string) => Visit): Merged;
  judgedAnew(
    known: readonly Revision[],
    visitOf: (text: string) => Visit,
  ): { readonly kept: KeptVisit; readonly revisions: readonly Revision[] };
  /** Reads a kept text. Throws DamagedText where it is damaged. */
  visitOf(text: string): Visit;
  /** Null where what is stored is no visit of the list. */
  listed(stored: unknown): KeptVisit | null;
}

/**
 * What the office keeps, in a database of its own: neither deletes the other, the technician's own visits and the office's.
 * Everything rejects with Error where the browser fails, and then changes nothing.
 */
export interface OfficeStore {
  /** All visits, for the list; ids of those whose line is damaged, or was judged by an older program. */
  visits(): Promise<{ readonly whole: readonly KeptVisit[]; readonly damaged: readonly string[] }>;
  /** The ids of all visits. */
  ids(): Promise<readonly string[]>;
  /** How many revisions of all visits, and done marks, there are. */
  counts(): Promise<{ readonly revisions: number; readonly done: number }>;
  /** All revisions of a visit, in the order of their numbers. */
  revisionsOf(id: string): Promise<readonly Revision[]>;
  /** Whether just this text is kept of a visit that is listed. */
  has(visitId: string, text: string): Promise<boolean>;
  /** Takes in exports in their order: all of them or none; what came of each. */
  keep(exports: readonly Export[]): Promise<readonly Taken[]>;
  /** Judges visits anew from their texts; those whose texts are damaged stay as they are. */
  judgeAnew(ids: readonly string[]): Promise<void>;
  /** The texts of what stands of visits, in the order of the ids; those that are not there are left out. */
  standing(ids: readonly string[]): Promise<readonly string[]>;
  /** The text of one revision; null where it is not there. */
  text(visitId: string, number: number): Promise<string | null>;
  /** Deletes a visit with all its revisions and done marks, for good. */
  dropVisit(id: string): Promise<void>;
  /** Deletes everything, for good. */
  dropAll(): Promise<void>;
  done(): Promise<readonly DoneMark[]>;
  markDone(mark: DoneMark): Promise<void>;
  undoDone(key: string): Promise<void>;
  /** Tells whenever another window, or a worker, has changed what is kept. */
  onChange(tell: () => void): void;
}

const NAME = "burnerside-office";

/** The last version that this program knows. */
const VERSION = 1;

class Tables extends Dexie {
  declare readonly visits: Table<KeptVisit, string>;
  declare readonly revisions: Table<Revision, [string, number]>;
  declare readonly done: Table<DoneMark, string>;

  constructor(name: string) {
    super(name, { chromeTransactionDurability: "strict" });
    this.version(VERSION).stores({ visits: "id", revisions: "[visitId+number]", done: "key, visitId" });
  }
}

/** Whether there is an office on this device; where the browser does not say, there may be. */
export async function hasOfficeStore(name = NAME): Promise<boolean> {
  if (typeof indexedDB.databases !== "function") return true;
  return (await indexedDB.databases()).some((one) => one.name === name);
}

/** Opens the office's store. Rejects with Error where the browser gives no storage. */
export async function openOfficeStore(rules: OfficeRules, name = NAME): Promise<OfficeStore> {
  const tables = new Tables(name);
  const { visits, revisions, done } = tables;
  const newer = newerProblem("office's list", await nativeVersion(name), VERSION);
  if (newer !== null) throw new Error(newer);
  try {
    await tables.open();
  } catch (error) {
    throw new Error(`The browser gives no storage for the office: ${reasonOf(error)}`);
  }
  const channel = new BroadcastChannel(name);
  /** Tells the others of a change, once it is on the disk. */
  const changing = async <T>(work: PromiseLike<T>): Promise<T> => {
    const result = await work;
    channel.postMessage("changed");
    return result;
  };
  const of = (id: string) =>
    revisions.where("[visitId+number]").between([id, Dexie.minKey], [id, Dexie.maxKey]);

  /** One that is twice in a batch is known the second time. */
  const take = async (incoming: Export, before: readonly Revision[]): Promise<[Taken, Revision[]]> => {
    const isKnown = before.some(({ text }) => text === incoming.text);
    const known = isKnown ? [...before] : await readable(before);
    const { as, kept, added } = rules.merge(known, incoming, rules.visitOf);
    if (kept) await visits.put(kept);
    if (added) await revisions.add(added);
    return [{ as, kept }, added ? [...known, added] : known];
  };

  /** What is damaged of a visit that is taken in again goes: nothing could be made of it any more. */
  const readable = async (known: readonly Revision[]): Promise<Revision[]> => {
    const sound = known.filter(({ text }) => isReadable(text));
    const damaged = known.filter((each) => !sound.includes(each));
    await revisions.bulkDelete(damaged.map(({ visitId, number }): [string, number] => [visitId, number]));
    return sound;
  };

  const isReadable = (text: string): boolean => {
    try {
      rules.visitOf(text);
      return true;
    } catch (error) {
      if (error instanceof DamagedText) return false;
      throw error;
    }
  };

  return {
    async visits() {
      const stored: unknown[] = await visits.toArray();
      const damaged: string[] = [];
      const whole = stored.flatMap((value) => {
        const visit = rules.listed(value);
        if (!visit) damaged.push(idOf(value));
        return visit ?? [];
      });
      return { whole, damaged };
    },
    ids: () => visits.toCollection().primaryKeys(),
    async counts() {
      return { revisions: await revisions.count(), done: await done.count() };
    },
    revisionsOf: (id) => of(id).toArray(),
    async has(visitId, text) {
      return (await of(visitId).toArray()).some((each) => each.text === text);
    },
    keep: (exports) =>
      changing(
        tables.transaction("rw", visits, revisions, async () => {
          const ids = [...new Set(exports.map(({ row }) => row.id))];
          const here = await visits.bulkGet(ids);
          const known = new Map<string, Revision[]>();
          for (const [place, id] of ids.entries()) if (here[place]) known.set(id, await of(id).toArray());
          const taken: Taken[] = [];
          for (const incoming of exports) {
            const [came, now] = await take(incoming, known.get(incoming.row.id) ?? []);
            known.set(incoming.row.id, now);
            taken.push(came);
          }
          return taken;
        }),
      ),
    async judgeAnew(ids) {
      for (const id of ids)
        await changing(
          tables.transaction("rw", visits, revisions, async () => {
            try {
              const anew = rules.judgedAnew(await of(id).toArray(), rules.visitOf);
              await revisions.bulkPut([...anew.revisions]);
              await visits.put(anew.kept);
            } catch (error) {
              if (!(error instanceof DamagedText || error instanceof RangeError)) throw error;
            }
          }),
        );
    },
    async standing(ids) {
      const kept = await visits.bulkGet([...ids]);
      const keys = kept.flatMap((visit): [string, number][] => {
        const [first] = visit?.revisions ?? [];
        return visit && first ? [[visit.id, first.number]] : [];
      });
      return (await revisions.bulkGet(keys)).flatMap((revision) => revision?.text ?? []);
    },
    async text(visitId, number) {
      return (await revisions.get([visitId, number]))?.text ?? null;
    },
    async dropVisit(id) {
      await changing(
        tables.transaction("rw", visits, revisions, done, async () => {
          await visits.delete(id);
          await of(id).delete();
          await done.where("visitId").equals(id).delete();
        }),
      );
    },
    async dropAll() {
      await changing(
        tables.transaction("rw", visits, revisions, done, async () => {
          await Promise.all([visits.clear(), revisions.clear(), done.clear()]);
        }),
      );
    },
    done: () => done.toArray(),
    async markDone(mark) {
      await changing(done.put(mark));
    },
    async undoDone(key) {
      await changing(done.delete(key));
    },
    onChange(tell) {
      channel.addEventListener("message", tell);
    },
  };
}

/** What is kept of a visit cannot be read any more. */
export class DamagedText extends Error {
  override readonly name = "DamagedText";
}

function idOf(stored: unknown): string {
  return typeof stored === "object" && stored !== null && "id" in stored
    ? String(stored.id)
    : "without an id";
}
