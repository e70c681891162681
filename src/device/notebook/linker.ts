import type { Entry } from "../../visit/entry.ts";
import type { Visit, VisitHead } from "../../visit/visit.ts";
import type { EntryRow, IntegrityRow, Tables } from "./tables.ts";

/** How logs are linked; passed in, because adapters know the pure folders by type only. */
export interface Linking {
  readonly head: (head: VisitHead) => Promise<string>;
  readonly next: (previous: string, entry: Entry) => Promise<string>;
}

/** The rows of a visit that is new here, and what they are checked by; null where nothing can be linked. */
export interface NewRows {
  readonly rows: readonly EntryRow[];
  readonly integrity: IntegrityRow | null;
}

/** The rows of entries that go on from a log, and the link in which it has to end for them; null where nothing can be linked. */
export interface AddedRows {
  readonly rows: readonly EntryRow[];
  readonly from: string | null;
}

/**
 * Links entries as they are stored. All hashing is done before a transaction is opened, for one that waits for anything but
 * the database is over. Where the platform has no cryptography (pages that came over plain http) logs are kept without links.
 */
export class Linker {
  readonly #tables: Tables;
  readonly #linking: Linking | null;
  /** Ends of visits that were added to, so that none is read for it twice. */
  readonly #ends = new Map<string, { readonly next: number; readonly link: string }>();

  constructor(tables: Tables, linking: Linking | null) {
    this.#tables = tables;
    this.#linking = linking;
  }

  /** The rows of a visit that was begun on this device. */
  async begun({ head, entries }: Visit): Promise<NewRows> {
    const { id } = head;
    if (!this.#linking) return { rows: unlinked(id, entries), integrity: null };
    const link = await this.#linking.head(head);
    const rows = await this.#linked(id, link, entries);
    return { rows, integrity: { visitId: id, ownFrom: 0, links: [link], signatures: [] } };
  }

  /** The rows of one that came in a file, with its links and signatures as they came. */
  async brought(visit: Visit): Promise<NewRows> {
    const { head, entries, integrity } = visit;
    const links = integrity ? integrity.links : await this.#linksOf(head, entries);
    if (!links) return { rows: unlinked(head.id, entries), integrity: null };
    const { signatures = [] } = integrity ?? {};
    return {
      rows: unlinked(head.id, entries),
      integrity: { visitId: head.id, ownFrom: entries.length, links, signatures },
    };
  }

  /**
   * The rows of entries that go on from what is stored. `stored` reads the visit as it is, for logs from before they were
   * linked here: those are linked now.
   */
  async added(id: string, entries: readonly Entry[], stored: () => Promise<Visit>): Promise<AddedRows> {
    if (!this.#linking) return { rows: unlinked(id, entries), from: null };
    const [first] = entries;
    const known = this.#ends.get(id);
    const from = known && known.next === first?.seq ? known.link : await this.#end(id, stored);
    return { rows: await this.#linked(id, from, entries), from };
  }

  /** Whether a stored log with this last row ends in a link: another window may have put another log in its place meanwhile. */
  async endsIn(id: string, last: EntryRow | undefined, from: string): Promise<boolean> {
    return from === (last?.link ?? lastOf(await this.#tables.integrity.get(id)));
  }

  /** Notes what was stored. */
  stored(rows: readonly EntryRow[]): void {
    const last = rows.at(-1);
    if (last?.link !== undefined) this.#ends.set(last.visitId, { next: last.seq + 1, link: last.link });
  }

  forget(id: string): void {
    this.#ends.delete(id);
  }

  /** What a visit's log is checked by, linked now where it is not yet; null where nothing can be linked. */
  async integrity(id: string, stored: () => Promise<Visit>): Promise<IntegrityRow | null> {
    const row = await this.#tables.integrity.get(id);
    if (row) return row;
    const { head, entries } = await stored();
    const links = await this.#linksOf(head, entries);
    if (!links) return null;
    const { integrity } = this.#tables;
    return this.#tables.transaction("rw", integrity, async () => {
      const made = await integrity.get(id);
      if (made) return made;
      const fresh = { visitId: id, ownFrom: entries.length, links, signatures: [] };
      await integrity.add(fresh);
      return fresh;
    });
  }

  async #end(id: string, stored: () => Promise<Visit>): Promise<string> {
    const last = await this.#tables.entriesOf(id).last();
    if (last?.link !== undefined) return last.link;
    return lastOf(await this.integrity(id, stored));
  }

  async #linksOf(head: VisitHead, entries: readonly Entry[]): Promise<string[] | null> {
    if (!this.#linking) return null;
    const link = await this.#linking.head(head);
    const rows = await this.#linked(head.id, link, entries);
    return [link, ...rows.flatMap((row) => row.link ?? [])];
  }

  async #linked(visitId: string, from: string, entries: readonly Entry[]): Promise<EntryRow[]> {
    const rows: EntryRow[] = [];
    let previous = from;
    for (const entry of entries) {
      if (this.#linking) previous = await this.#linking.next(previous, entry);
      rows.push({ visitId, seq: entry.seq, entry, link: previous });
    }
    return rows;
  }
}

function lastOf(row: IntegrityRow | null | undefined): string {
  return row?.links.at(-1) ?? "";
}

function unlinked(visitId: string, entries: readonly Entry[]): EntryRow[] {
  return entries.map((entry) => ({ visitId, seq: entry.seq, entry }));
}
