import { BackupDesk } from "../../../src/app/backup/backup-desk.ts";
import { type OfficeDoor, restore } from "../../../src/app/backup/restore.ts";
import type { Restored } from "../../../src/app/backup/restored.ts";
import { openBackup } from "../../../src/app/backup/source.ts";
import { LINKING } from "../../../src/app/linking.ts";
import { RULES } from "../../../src/app/office/rules.ts";
import { Preferences } from "../../../src/app/preferences.ts";
import { READERS } from "../../../src/app/readers.ts";
import { CRYPTOGRAPHY } from "../../../src/app/safekeeping/cryptography.ts";
import { Signing } from "../../../src/app/safekeeping/signing.ts";
import { type Notebook, openNotebook } from "../../../src/device/notebook/notebook.ts";
import { reasonOf } from "../../../src/device/notebook/trouble.ts";
import { type OfficeStore, openOfficeStore } from "../../../src/device/office/store.ts";
import { backupKind } from "../../../src/record/backup/kind.ts";
import { importVisit } from "../../../src/record/bundle.ts";
import { exportOf } from "../../../src/record/office/kept.ts";
import { NOTHING_FOUND } from "../../../src/record/office/log-found.ts";

// A device in memory: a notebook and an office of its own (fake-indexeddb), and what makes and restores backups. The test
// file imports fake-indexeddb/auto first.

export const NOW = "2026-11-26T12:00:00.000Z";
export const TODAY = "2026-11-26";

let devices = 0;

export interface Device {
  readonly notebook: Notebook;
  readonly office: OfficeStore;
  readonly preferences: Preferences;
  readonly signing: Signing;
  readonly desk: BackupDesk;
  /** Files that were handed over, in order. */
  readonly files: { readonly name: string; readonly file: Blob }[];
  /** Makes a backup. */
  backUp(passphrase?: string | null, sound?: boolean): Promise<Blob>;
  /** Restores one, with its settings unless told otherwise. */
  restore(file: Blob, withSettings?: boolean): Promise<Restored>;
}

export async function newDevice(now: () => string = () => NOW): Promise<Device> {
  devices += 1;
  const notebook = await openNotebook(READERS, LINKING, `device-${devices}`);
  const office = await openOfficeStore(RULES, `office-${devices}`);
  const preferences = new Preferences(notebook);
  const breathe = async () => {};
  const signing = new Signing({ notebook, cryptography: async () => CRYPTOGRAPHY, now, breathe }, reasonOf);
  const files: { name: string; file: Blob }[] = [];
  const desk = new BackupDesk({
    notebook,
    handOver: (id) => signing.handOver(id),
    office: async () => office,
    lacking: () => null,
    download: (name, file) => files.push({ name, file }),
    breathe,
    reason: reasonOf,
    now,
    today: () => TODAY,
  });
  return {
    notebook,
    office,
    preferences,
    signing,
    desk,
    files,
    async backUp(passphrase = null, sound = true) {
      await desk.make({ sound, passphrase });
      const made = files.at(-1);
      if (!made || desk.outcome.value?.kind !== "made") throw new Error(JSON.stringify(desk.outcome.value));
      return made.file;
    },
    async restore(file, withSettings = true) {
      const kind = backupKind(new Uint8Array(await file.slice(0, 256).arrayBuffer()));
      const opened = kind && (await openBackup(file, kind));
      if (opened?.kind !== "open") throw new Error(`Expected an open backup, found ${opened?.kind}.`);
      const world = {
        notebook,
        examine: signing.examine.bind(signing),
        office: async () => doorOf(office, now),
        settings: () => preferences.chosen.value,
        changeSettings: (change: object) => preferences.change(change),
        now,
        breathe,
        reason: reasonOf,
      };
      return restore(opened.lines(), withSettings, world, () => undefined);
    },
  };
}

/** As the office's worker takes in, without a worker. */
function doorOf(office: OfficeStore, now: () => string): OfficeDoor {
  return {
    async take(files) {
      const taken = { added: 0, same: 0, refused: 0 };
      for (const file of files) {
        const read = importVisit(await file.text());
        if (!read.ok) throw new Error(JSON.stringify(read.problems));
        const [one] = await office.keep([exportOf(read.visit, NOTHING_FOUND, file.name, now())]);
        taken[one?.as === "same" ? "same" : "added"] += 1;
      }
      return taken;
    },
    async markDone(marks) {
      for (const mark of marks) await office.markDone(mark);
      return marks.length;
    },
  };
}
