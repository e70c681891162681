import { BACKUP_FORMAT } from "./line.ts";
import { LOCKED_FORMAT } from "./locked.ts";

/** How a backup is packed: locked with a passphrase, packed with gzip, or as plain lines. */
export type BackupKind = "locked" | "packed" | "plain";

/** The versions of a format are told apart when its head is read. */
const START = {
  locked: LOCKED_FORMAT.replace(/\/.*/, "/"),
  plain: BACKUP_FORMAT.replace(/\/.*/, "/"),
};

/** What a file is by its first bytes (some hundred are enough); null where it is no backup. */
export function backupKind(start: Uint8Array): BackupKind | null {
  // RFC 1952, 2.3.1: ID1, ID2 and CM.
  if (start[0] === 0x1f && start[1] === 0x8b && start[2] === 8) return "packed";
  const text = String.fromCharCode(...start.subarray(0, 200)).replace(/^ï»¿/, "");
  if (text.startsWith(`{"format":"${START.locked}`)) return "locked";
  return text.startsWith(`{"kind":"head","format":"${START.plain}`) ? "plain" : null;
}

/** The name of a backup's file by the day on which it is made, YYYY-MM-DD. A locked one is opened by this program only. */
export function backupName(day: string, isLocked: boolean): string {
  return `burnerside-backup-${day}.${isLocked ? "jsonl.gz.locked" : "jsonl.gz"}`;
}
