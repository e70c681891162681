import { keyOf, locked, randomBase64 } from "../../device/backup/locked.ts";
import { packed } from "../../device/backup/packed.ts";
import { blobOf } from "../../device/backup/streams.ts";
import { sha256 } from "../../device/signing/sha256.ts";
import { BACKUP_LIMITS } from "../../record/backup/limits.ts";
import { BACKUP_FORMAT, type Counts, type End } from "../../record/backup/line.ts";
import { lockedHead, normalised } from "../../record/backup/locked.ts";
import { backupLines } from "../../record/backup/write.ts";
import { PROGRAM } from "../../record/program.ts";
import { type BackupSource, gather, type PutIn } from "./contents.ts";

/** How a backup is to be made. */
export interface BackupWish {
  /** Whether the kept sound is in it. */
  readonly sound: boolean;
  /** Null for one that anybody can read. */
  readonly passphrase: string | null;
  /** ISO 8601. */
  readonly madeAt: string;
}

export interface MadeBackup {
  readonly file: Blob;
  readonly counts: Counts;
  /** What could not be read, and is not in it. */
  readonly missing: readonly string[];
  readonly putIn: readonly PutIn[];
}

/**
 * Makes a backup; `tell` says how far it is, from 0 to 1. It is never in memory as a whole but for the file itself. Rejects
 * where the notebook fails, or where it would be larger than what can be restored.
 */
export async function makeBackup(
  source: BackupSource,
  { sound, passphrase, madeAt }: BackupWish,
  tell: (share: number) => void,
): Promise<MadeBackup> {
  const gathered = await gather(source, sound);
  const { counts } = gathered;
  const expected = Object.values(counts).reduce((sum, count) => sum + count, 3);
  let written: End | null = null;

  async function* lines(): AsyncGenerator<string> {
    const head = { kind: "head", format: BACKUP_FORMAT, madeAt, program: PROGRAM, counts } as const;
    const writing = backupLines(head, gathered, sha256);
    for (let number = 1; ; number += 1) {
      const next = await writing.next();
      if (next.done) {
        written = next.value;
        return;
      }
      tell(Math.min(1, number / expected));
      yield next.value;
    }
  }

  const pieces = packed(lines(), BACKUP_LIMITS.total);
  const file = await blobOf(passphrase === null ? pieces : await lock(pieces, passphrase));
  const end = finished(written);
  return { file, counts: end.counts, missing: end.missing, putIn: gathered.putIn() };
}

async function lock(
  pieces: AsyncIterable<Uint8Array>,
  passphrase: string,
): Promise<AsyncIterable<Uint8Array>> {
  const head = lockedHead(randomBase64(16), randomBase64(7));
  return locked(pieces, await keyOf(normalised(passphrase), head), head);
}

function finished(end: End | null): End {
  if (!end) throw new Error("the backup was not written to its end");
  return end;
}
