import type { Sha256 } from "../integrity/chain.ts";
import type { Problem } from "../problem.ts";
import { BACKUP_LIMITS, LINES_OF_SOMETHING_ELSE } from "./limits.ts";
import { type Counts, counted, type End, type Head, NONE } from "./line.ts";
import { type Damage, type Item, readLine } from "./read-line.ts";

/** One line of a backup, numbered from 1. */
export type Read =
  | { readonly kind: "item"; readonly line: number; readonly item: Item }
  | { readonly kind: "damage"; readonly line: number; readonly damage: Damage };

/** What was found in a backup that was read to its end, or to where it could not be read on. */
export interface Found {
  readonly head: Head | null;
  /** Null where the file does not come to its end. */
  readonly end: End | null;
  /** Sound lines of each kind. */
  readonly counts: Counts;
  readonly settings: boolean;
  /** The damaged lines that are told, in order, and how many there are. */
  readonly damage: readonly { readonly line: number; readonly damage: Damage }[];
  readonly damaged: number;
  /** What is wrong with the file as a whole; empty where it is whole. */
  readonly problems: readonly Problem[];
}

/** So many damaged lines are told. */
const TOLD = 50;

/**
 * Reads a backup line by line, piece by piece as its lines come. What of it is whole is handed on whatever happens to the rest;
 * what comes back at the end says whether it is the file that was written. Lines may throw where they cannot be read on (a cut
 * or damaged file): that is one of the problems found. Does not throw.
 */
export async function* readBackup(
  lines: AsyncIterable<Uint8Array>,
  sha256: Sha256,
  reason: (error: unknown) => string,
): AsyncGenerator<Read, Found> {
  const finder = new Finder();
  try {
    for await (const bytes of lines) {
      if (finder.line >= BACKUP_LIMITS.lines) {
        finder.problem(`Expected at most ${BACKUP_LIMITS.lines} lines, found more.`);
        break;
      }
      const read = await readLine(bytes, sha256);
      finder.line += 1;
      if (read.ok) {
        finder.take(read.item, read.digest);
        yield { kind: "item", line: finder.line, item: read.item };
      } else {
        finder.damage(read.damage);
        yield { kind: "damage", line: finder.line, damage: read.damage };
      }
      if (finder.isSomethingElse()) break;
    }
  } catch (error) {
    finder.problem(`Expected the whole file, could not read on after line ${finder.line}: ${reason(error)}.`);
  }
  return finder.found(sha256);
}

class Finder {
  line = 0;
  #head: Head | null = null;
  #end: End | null = null;
  #counts: Counts = NONE;
  #settings = false;
  #damage: { line: number; damage: Damage }[] = [];
  #damaged = 0;
  #sound = 0;
  readonly #digests: string[] = [];
  readonly #problems: Problem[] = [];

  problem(message: string): void {
    this.#problems.push({ path: "", message });
  }

  take(item: Item, digest: string): void {
    this.#sound += 1;
    if (this.#end) this.problem(`Expected nothing behind the last line, found line ${this.line}.`);
    if (item.kind === "end") {
      this.#end = item;
      return;
    }
    this.#digests.push(digest);
    if (item.kind === "head") {
      if (this.line === 1) this.#head = item;
      else this.problem(`Expected one first line, found another as line ${this.line}.`);
    } else if (this.line === 1)
      this.problem("Expected the first line of a backup, found one of another kind.");
    if (item.kind === "settings") this.#settings = true;
    const kind = counted(item.kind);
    if (kind) this.#counts = { ...this.#counts, [kind]: this.#counts[kind] + 1 };
  }

  damage(damage: Damage): void {
    this.#damaged += 1;
    if (this.#damage.length < TOLD) this.#damage.push({ line: this.line, damage });
  }

  isSomethingElse(): boolean {
    return this.#sound === 0 && this.#damaged >= LINES_OF_SOMETHING_ELSE;
  }

  async found(sha256: Sha256): Promise<Found> {
    const end = this.#end;
    if (this.#sound === 0) this.problem("Expected a backup, found no line of one.");
    else if (!end) this.problem("Expected the last line of a backup, found none: the file was cut short.");
    else if (this.#damaged === 0 && !(await this.#isAll(end, sha256)))
      this.problem("Expected all lines as they were written, found some that are missing or moved.");
    return {
      head: this.#head,
      end,
      counts: this.#counts,
      settings: this.#settings,
      damage: this.#damage,
      damaged: this.#damaged,
      problems: this.#problems,
    };
  }

  async #isAll(end: End, sha256: Sha256): Promise<boolean> {
    return end.lines === this.#digests.length && end.all === (await sha256(this.#digests.join("")));
  }
}

/** Whether it is the file that was written, whole. */
export function isWhole({ damaged, problems }: Found): boolean {
  return damaged === 0 && problems.length === 0;
}
