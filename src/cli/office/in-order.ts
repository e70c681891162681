/**
 * What `work` makes of each item, in their order, each as soon as it and those before it are made; at most so many under way at a
 * time. Ends with the first failure.
 */
export async function* inOrder<Item, Made>(
  items: AsyncIterable<Item>,
  work: (item: Item) => Promise<Made>,
  most: number,
): AsyncGenerator<Made> {
  const source = items[Symbol.asyncIterator]();
  const underWay: Promise<Made>[] = [];
  let coming: Promise<IteratorResult<Item>> | null = source.next();
  try {
    while (coming !== null || underWay.length > 0) {
      const [first] = underWay;
      if (first && (coming === null || underWay.length >= most || (await isFirst(first, coming)))) {
        yield await first;
        underWay.shift();
        continue;
      }
      const next: IteratorResult<Item> | null = await coming;
      coming = next?.done === false ? source.next() : null;
      if (next?.done !== false) continue;
      const made = work(next.value);
      // It is told when its turn comes; until then it must not end the process.
      made.catch(() => {});
      underWay.push(made);
    }
  } finally {
    // Whoever reads no further lets the source go, once it has brought what was asked of it.
    coming?.catch(() => {});
    void source.return?.();
  }
}

/** Whether one is done before the other. */
async function isFirst(one: Promise<unknown>, other: Promise<unknown>): Promise<boolean> {
  const is = (value: boolean) => () => value;
  return Promise.race([one.then(is(true), is(true)), other.then(is(false), is(false))]);
}
