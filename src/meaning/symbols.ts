/** One bit of 32 for a symbol: two with unlike bits are unlike. */
export function bitOf(symbol: number): number {
  return 1 << (symbol & 31);
}

/** Words and the names of parts as small numbers. 0 is any word that no rule and no confusion knows. */
export class Symbols {
  private readonly numbers = new Map<string, number>();

  /** The number of a word or part, a new one if need be. */
  add(name: string): number {
    const known = this.numbers.get(name);
    if (known !== undefined) return known;
    const symbol = this.numbers.size + 1;
    this.numbers.set(name, symbol);
    return symbol;
  }

  /** All names, that of symbol 1 first. */
  names(): string[] {
    return [...this.numbers.keys()];
  }

  of(name: string): number {
    return this.numbers.get(name) ?? 0;
  }
}
