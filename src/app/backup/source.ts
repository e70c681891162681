import { CannotUnlock, keyOf, unlocked } from "../../device/backup/locked.ts";
import { boundedLines, unpacked } from "../../device/backup/packed.ts";
import { piecesOf } from "../../device/backup/streams.ts";
import type { BackupKind } from "../../record/backup/kind.ts";
import { BACKUP_LIMITS } from "../../record/backup/limits.ts";
import { LONGEST_HEAD, type LockedHead, normalised, readLockedHead } from "../../record/backup/locked.ts";
import type { Problem } from "../../record/problem.ts";

/** A chosen backup, before anything of it is read. Its lines can be gone through more than once. */
export type BackupFile =
  | { readonly kind: "open"; readonly lines: () => AsyncIterable<Uint8Array> }
  | {
      readonly kind: "locked";
      /** Its lines with the right passphrase; null with another, or where it was changed. */
      readonly unlock: (passphrase: string) => Promise<(() => AsyncIterable<Uint8Array>) | null>;
    }
  | { readonly kind: "bad"; readonly problems: readonly Problem[] };

/** Opens a backup of a kind. Rejects where it cannot be read. */
export async function openBackup(file: Blob, kind: BackupKind): Promise<BackupFile> {
  switch (kind) {
    case "plain":
      return { kind: "open", lines: () => bounded(piecesOf(file.stream())) };
    case "packed":
      return { kind: "open", lines: () => bounded(unpacked(piecesOf(file.stream()))) };
    case "locked": {
      const read = readLockedHead(await start(file));
      if (!read.ok) return { kind: "bad", problems: read.problems };
      return { kind, unlock: (passphrase) => unlock(file, passphrase, read) };
    }
  }
}

interface Lock {
  readonly head: LockedHead;
  readonly line: Uint8Array;
}

async function unlock(
  file: Blob,
  passphrase: string,
  { head, line }: Lock,
): Promise<(() => AsyncIterable<Uint8Array>) | null> {
  const key = await keyOf(normalised(passphrase), head);
  const clear = () => unlocked(piecesOf(file.slice(line.length + 1).stream()), key, head, line);
  // Its first piece tells.
  const first = clear();
  try {
    await first.next();
  } catch (error) {
    if (error instanceof CannotUnlock) return null;
    throw error;
  } finally {
    await first.return(undefined);
  }
  return () => bounded(unpacked(clear()));
}

function bounded(pieces: AsyncIterable<Uint8Array>): AsyncIterable<Uint8Array> {
  return boundedLines(pieces, BACKUP_LIMITS);
}

async function start(file: Blob): Promise<Uint8Array> {
  return new Uint8Array(await file.slice(0, LONGEST_HEAD).arrayBuffer());
}
