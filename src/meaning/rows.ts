/**
 * Rows of tags, each with a number of its own: 0 is the empty row. A row that goes on from another shares its beginning,
 * so that a path through the grammar carries one number instead of a list.
 */
export class Rows {
  private readonly before: number[] = [0];
  private readonly own: (readonly string[] | number)[] = [[]];
  private readonly next: (Map<number, number> | undefined)[] = [];
  private readonly named = new Map<string, number>();
  private kept = 1;

  /** The row of these tags alone. */
  of(tags: readonly string[]): number {
    if (tags.length === 0) return 0;
    const text = tags.join("\t");
    const known = this.named.get(text);
    if (known !== undefined) return known;
    const row = this.add(0, tags);
    this.named.set(text, row);
    return row;
  }

  /** One row and then another. */
  join(first: number, second: number): number {
    if (second === 0) return first;
    if (first === 0) return second;
    let next = this.next[first];
    if (!next) {
      next = new Map();
      this.next[first] = next;
    }
    const known = next.get(second);
    if (known !== undefined) return known;
    const row = this.add(first, second);
    next.set(second, row);
    return row;
  }

  tags(row: number): string[] {
    const parts: (readonly string[])[] = [];
    for (let at = row; at !== 0; at = this.before[at] ?? 0) {
      const own = this.own[at] ?? [];
      parts.push(typeof own === "number" ? this.tags(own) : own);
    }
    return parts.reverse().flat();
  }

  get size(): number {
    return this.own.length;
  }

  /** Keeps what there is for good; `forget` drops the rest. */
  keep(): void {
    this.kept = this.own.length;
  }

  forget(): void {
    this.before.length = this.kept;
    this.own.length = this.kept;
    this.next.length = 0;
  }

  private add(before: number, own: readonly string[] | number): number {
    this.before.push(before);
    this.own.push(own);
    return this.own.length - 1;
  }
}
