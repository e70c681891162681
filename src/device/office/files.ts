/** A file that was handed over, read when its turn comes. Both ways reject where it cannot be read. */
export interface HandedFile {
  readonly name: string;
  /** Bytes. */
  readonly size: number;
  bytes(): Promise<Uint8Array>;
  /** Its lines, without what ends them, one after the other: it is never in memory as a whole, nor is a line longer than `most` bytes. */
  lines(most: number): AsyncIterable<HandedLine>;
}

export interface HandedLine {
  /** Bytes. */
  readonly size: number;
  /** Null where there are more than were asked for. */
  readonly bytes: Uint8Array | null;
}

export function handedFile(file: File): HandedFile {
  return {
    name: file.name,
    size: file.size,
    bytes: async () => new Uint8Array(await file.arrayBuffer()),
    lines: (most) => linesOf(file.stream(), most),
  };
}

const NEWLINE = 10;

/** The lines of a stream of bytes; the last one also where nothing ends it. */
export async function* linesOf(stream: ReadableStream<Uint8Array>, most: number): AsyncGenerator<HandedLine> {
  const reader = stream.getReader();
  let begun: Uint8Array[] = [];
  let size = 0;
  const add = (part: Uint8Array): void => {
    size += part.length;
    // Of a line without end no more is kept than what was read when it became too long.
    if (size > most) begun = [];
    else begun.push(part);
  };
  const ended = (): HandedLine => {
    const line = { size, bytes: size > most ? null : joined(begun) };
    begun = [];
    size = 0;
    return line;
  };
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) break;
      let from = 0;
      for (let at = value.indexOf(NEWLINE); at >= 0; at = value.indexOf(NEWLINE, from)) {
        add(value.subarray(from, at));
        yield ended();
        from = at + 1;
      }
      if (from < value.length) add(value.subarray(from));
    }
    if (size > 0) yield ended();
  } finally {
    // What is left unread is let go.
    await reader.cancel().catch(() => undefined);
  }
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const [only] = parts;
  if (only && parts.length === 1) return only;
  const whole = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

/** Whether the platform lets a person choose a whole folder. */
export function takesFolders(): boolean {
  return "webkitdirectory" in HTMLInputElement.prototype;
}

/** The files of a drop, those in folders too. To be called while the drop is dealt with: later the browser has let go of it. */
export async function droppedFiles(transfer: DataTransfer): Promise<File[]> {
  const items = [...transfer.items].filter(({ kind }) => kind === "file");
  const dropped = items.map((item) => ({ entry: item.webkitGetAsEntry?.() ?? null, file: item.getAsFile() }));
  const found = await Promise.all(
    dropped.map(({ entry, file }) => (entry?.isDirectory ? filesIn(entry) : file ? [file] : [])),
  );
  return found.flat();
}

async function filesIn(entry: FileSystemEntry): Promise<File[]> {
  if (isFile(entry)) return [await new Promise<File>((resolve, reject) => entry.file(resolve, reject))];
  if (!isFolder(entry)) return [];
  const reader = entry.createReader();
  const found: File[] = [];
  for (;;) {
    // A folder is told in parts; an empty one is its end.
    const part = await new Promise<FileSystemEntry[]>((resolve, reject) =>
      reader.readEntries(resolve, reject),
    );
    if (part.length === 0) return found;
    for (const each of part) found.push(...(await filesIn(each)));
  }
}

function isFile(entry: FileSystemEntry): entry is FileSystemFileEntry {
  return entry.isFile;
}

function isFolder(entry: FileSystemEntry): entry is FileSystemDirectoryEntry {
  return entry.isDirectory;
}
