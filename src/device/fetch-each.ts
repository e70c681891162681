/** A file that could not be had, and why it failed last. */
export interface Missed<File> {
  readonly file: File;
  readonly error: unknown;
}

/** How long after a round what failed in it is tried again, ms: a network that comes and goes, not one that is gone. */
const PAUSES_MS = [500, 2000] as const;

/**
 * Fetches files one after the other. One that fails holds up none of the others: it is tried again after them, twice.
 * @param fetchOne rejects where its file cannot be had
 * @param pause resolves after so many milliseconds, or at once when the signal aborts
 * @returns what could not be had even then; rejects only where the signal aborts
 */
export async function fetchEach<File>(
  files: readonly File[],
  fetchOne: (file: File) => Promise<void>,
  pause: (ms: number, signal: AbortSignal) => Promise<void>,
  signal: AbortSignal,
): Promise<readonly Missed<File>[]> {
  let missed = await fetchRound(files, fetchOne, signal);
  for (const ms of PAUSES_MS) {
    if (missed.length === 0) break;
    await pause(ms, signal);
    missed = await fetchRound(
      missed.map(({ file }) => file),
      fetchOne,
      signal,
    );
  }
  return missed;
}

async function fetchRound<File>(
  files: readonly File[],
  fetchOne: (file: File) => Promise<void>,
  signal: AbortSignal,
): Promise<readonly Missed<File>[]> {
  const missed: Missed<File>[] = [];
  for (const file of files) {
    signal.throwIfAborted();
    try {
      await fetchOne(file);
    } catch (error) {
      signal.throwIfAborted();
      missed.push({ file, error });
    }
  }
  return missed;
}
