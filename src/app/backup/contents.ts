import { base64Of } from "../../device/base64.ts";
import type { Notebook } from "../../device/notebook/notebook.ts";
import type { OfficeStore } from "../../device/office/store.ts";
import type { Content, Counts } from "../../record/backup/line.ts";
import type { Contents } from "../../record/backup/write.ts";
import { readJson } from "../../record/json.ts";
import type { Visit } from "../../visit/visit.ts";
import { SETTINGS_KEY } from "../preferences.ts";
import { titleOf } from "../start/visit-title.ts";

/** What a backup is made of. */
export interface BackupSource {
  readonly notebook: Pick<Notebook, "visits" | "sheets" | "setting" | "clips">;
  /** A visit as it is handed over, signed where it can be. Rejects where it cannot be read. */
  readonly handOver: (id: string) => Promise<{ readonly visit: Visit }>;
  /** Null where there is no office on this device. */
  readonly office: Pick<OfficeStore, "ids" | "revisionsOf" | "counts" | "done"> | null;
  /** A pause between pieces of long work. */
  readonly breathe: () => Promise<void>;
  /** Why something failed, without a full stop. */
  readonly reason: (error: unknown) => string;
}

/** A visit that went into a backup, and with how many entries. */
export interface PutIn {
  readonly visitId: string;
  readonly entries: number;
}

/** What goes into a backup, read piece by piece while it is written. */
export interface Gathered extends Contents {
  /** What is there to be written. */
  readonly counts: Counts;
  /** Asked for at the end. */
  readonly putIn: () => readonly PutIn[];
}

/** Looks what there is; the rest is read when its turn comes. Rejects where the notebook cannot be read at all. */
export async function gather(source: BackupSource, withSound: boolean): Promise<Gathered> {
  const { notebook, office, handOver, breathe, reason } = source;
  const [visits, sheets, clips] = await Promise.all([
    notebook.visits(),
    notebook.sheets(),
    withSound ? notebook.clips.count() : 0,
  ]);
  const kept = office ? await office.counts() : { revisions: 0, done: 0 };
  const missing = [...visits.problems, ...sheets.problems];
  const putIn: PutIn[] = [];

  async function* each(): AsyncGenerator<Content> {
    const settings = await notebook.setting(SETTINGS_KEY);
    if (isObject(settings)) yield { kind: "settings", settings };
    for (const sheet of sheets.whole) yield { kind: "sheet", sheet };
    for (const head of visits.whole) {
      await breathe();
      try {
        const { visit } = await handOver(head.id);
        putIn.push({ visitId: head.id, entries: visit.entries.length });
        yield { kind: "visit", bundle: visit };
      } catch (error) {
        missing.push(`Visit “${titleOf(head)}” cannot be read: ${reason(error)}.`);
        continue;
      }
      if (!withSound) continue;
      for (const { data, ...clip } of await notebook.clips.rowsOf(head.id))
        yield { kind: "clip", ...clip, data: base64Of(new Uint8Array(data)) };
    }
    if (office) yield* officeContents(office);
  }

  async function* officeContents(of: NonNullable<BackupSource["office"]>): AsyncGenerator<Content> {
    for (const id of await of.ids()) {
      await breathe();
      for (const { file, text } of await of.revisionsOf(id)) {
        const read = readJson(text);
        if (read.ok) yield { kind: "office-visit", file, bundle: read.value };
        else missing.push(`What the office keeps of visit ${id} (${file}) is damaged.`);
      }
    }
    for (const { key, visitId, at, by } of await of.done())
      yield { kind: "office-done", key, visitId, at, by };
  }

  return {
    counts: {
      visits: visits.whole.length,
      sheets: sheets.whole.length,
      clips,
      officeVisits: kept.revisions,
      officeDone: kept.done,
    },
    each: each(),
    missing: () => missing,
    putIn: () => putIn,
  };
}

function isObject(stored: unknown): stored is Record<string, unknown> {
  return typeof stored === "object" && stored !== null && !Array.isArray(stored);
}
