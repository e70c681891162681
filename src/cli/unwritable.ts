/** Why a file cannot be written, in a sentence without a full stop, which names it. */
export function unwritable(file: string, error: unknown): string {
  const code = error instanceof Error && "code" in error ? String(error.code) : "";
  const found = FOUND[code] ?? (error instanceof Error ? error.message : String(error));
  return `${file}: expected a file that can be written, found ${found}`;
}

/** By what the system says. */
const FOUND: Readonly<Record<string, string>> = {
  ENOENT: "no such folder",
  ENOTDIR: "a file where a folder is to be",
  EACCES: "one that this user may not write",
  EPERM: "one that this user may not write",
  EROFS: "a disk that can only be read",
  EISDIR: "a folder",
  ENOSPC: "a disk without space",
};
