import Dexie, { type Table } from "dexie";
import type { Export, KeptVisit, Merged, Revision, TakenAs } from "../../record/office/kept.ts";
import type { Visit } from "../../visit/visit.ts";
import { reasonOf } from "../notebook.ts";

/** A follow-up that somebody in the office has marked as done. */
export interface DoneMark {
  readonly key: string;
  readonly visitId: string;
  /** ISO 8601. */
  readonly at: string;
  readonly by: string;
}

/** What came of one export: how it was taken and what the list now says of its visit, or why nothing was changed. */
export type Taken =
  | { readonly as: TakenAs; readonly kept: KeptVisit | null }
  | { readonly as: "refused"; readonly problem: string };

/** The pure functions that the store works by. */
export interface OfficeRules {
  merge(known: readonly Revision[], incoming: Export, visitOf: (text: string) => Visit): Merged;
  /** Reads a kept text. Throws where it is damaged. */
  visitOf(text: string): Visit;
  /** Null where what is stored is no visit of the list. */
  listed(stored: unknown): KeptVisit | null;
}

/**
 * What the office keeps, in a database of its own: neither deletes the other, the technician's own visits and the office's.
 * Everything rejects with Error where the browser fails, and then changes nothing.
 */
export interface OfficeStore {
  /** All visits, for the list; ids of those whose line is damaged. */
  visits(): Promise<{ readonly whole: readonly KeptVisit[]; readonly damaged: readonly string[] }>;
  /** Takes in exports in their order: all of them or none; what came of each. */
  keep(exports: readonly Export[]): Promise<readonly Taken[]>;
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
}

class Tables extends Dexie {
  declare readonly visits: Table<KeptVisit, string>;
  declare readonly revisions: Table<Revision, [string, number]>;
  declare readonly done: Table<DoneMark, string>;

  constructor(name: string) {
    super(name, { chromeTransactionDurability: "strict" });
    this.version(1).stores({ visits: "id", revisions: "[visitId+number]", done: "key, visitId" });
  }
}

/** Opens the office's store. Rejects with Error where the browser gives no storage. */
export async function openOfficeStore(rules: OfficeRules, name = "burnerside-office"): Promise<OfficeStore> {
  const tables = new Tables(name);
  const { visits, revisions, done } = tables;
  try {
    await tables.open();
  } catch (error) {
    throw new Error(`The browser gives no storage for the office: ${reasonOf(error)}`);
  }
  const of = (id: string) =>
    revisions.where("[visitId+number]").between([id, Dexie.minKey], [id, Dexie.maxKey]);

  /** Of one that is new nothing has to be read; one that is twice in a batch is known the second time. */
  const take = async (incoming: Export, known: Revision[] | undefined): Promise<[Taken, Revision[]]> => {
    const before = known ?? [];
    try {
      const { as, kept, added } = rules.merge(before, incoming, rules.visitOf);
      if (kept) await visits.put(kept);
      if (added) await revisions.add(added);
      return [{ as, kept }, added ? [...before, added] : before];
    } catch (error) {
      if (!(error instanceof DamagedText)) throw error;
      return [{ as: "refused", problem: error.message }, before];
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
    keep: (exports) =>
      tables.transaction("rw", visits, revisions, async () => {
        const ids = [...new Set(exports.map(({ row }) => row.id))];
        const here = await visits.bulkGet(ids);
        const known = new Map<string, Revision[]>();
        for (const [place, id] of ids.entries()) if (here[place]) known.set(id, await of(id).toArray());
        const taken: Taken[] = [];
        for (const incoming of exports) {
          const [came, now] = await take(incoming, known.get(incoming.row.id));
          known.set(incoming.row.id, now);
          taken.push(came);
        }
        return taken;
      }),
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
      await tables.transaction("rw", visits, revisions, done, async () => {
        await visits.delete(id);
        await of(id).delete();
        await done.where("visitId").equals(id).delete();
      });
    },
    async dropAll() {
      await tables.transaction("rw", visits, revisions, done, async () => {
        await Promise.all([visits.clear(), revisions.clear(), done.clear()]);
      });
    },
    done: () => done.toArray(),
    async markDone(mark) {
      await done.put(mark);
    },
    async undoDone(key) {
      await done.delete(key);
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
