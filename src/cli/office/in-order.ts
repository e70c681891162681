/** What `work` makes of each item, in their order, with at most so many under way at a time. Ends with the first failure. */
export async function* inOrder<Item, Made>(
  items: AsyncIterable<Item>,
  work: (item: Item) => Promise<Made>,
  most: number,
): AsyncGenerator<Made> {
  const underWay: Promise<Made>[] = [];
  for await (const item of items) {
    const made = work(item);
    // It is told when its turn comes; until then it must not end the process.
    made.catch(() => {});
    underWay.push(made);
    if (underWay.length < most) continue;
    const first = underWay.shift();
    if (first) yield await first;
  }
  for (const made of underWay) yield await made;
}
