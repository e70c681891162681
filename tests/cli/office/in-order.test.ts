import fc from "fast-check";
import { expect, test } from "vitest";
import { inOrder } from "../../../src/cli/office/in-order.ts";

async function* numbers(count: number): AsyncGenerator<number> {
  for (let n = 0; n < count; n += 1) yield n;
}

async function all<T>(made: AsyncIterable<T>): Promise<T[]> {
  const list: T[] = [];
  for await (const each of made) list.push(each);
  return list;
}

const turns = async (many: number) => {
  for (let i = 0; i < many; i += 1) await Promise.resolve();
};

test("everything comes in its order, however long each takes, and never more at a time", () =>
  fc.assert(
    fc.asyncProperty(
      fc.array(fc.nat(9), { maxLength: 20 }),
      fc.integer({ min: 1, max: 5 }),
      async (long, most) => {
        let under = 0;
        let highest = 0;
        const work = async (n: number) => {
          under += 1;
          highest = Math.max(highest, under);
          await turns(long[n] ?? 0);
          under -= 1;
          return n;
        };
        expect(await all(inOrder(numbers(long.length), work, most))).toEqual(long.map((_, n) => n));
        expect(highest).toBeLessThanOrEqual(most);
      },
    ),
  ));

test("what is made is handed on though the source does not end", async () => {
  async function* stuck(): AsyncGenerator<number> {
    yield* numbers(2);
    await new Promise(() => {});
  }
  const made = inOrder(stuck(), async (n) => n, 8);
  expect([await made.next(), await made.next()].map(({ value }) => value)).toEqual([0, 1]);
});

test("a failure ends it when its turn comes", async () => {
  const work = async (n: number) => {
    if (n === 1) throw new RangeError("no");
    return n;
  };
  const made = inOrder(numbers(5), work, 3);
  expect((await made.next()).value).toBe(0);
  await expect(made.next()).rejects.toThrow(RangeError);
});

test("whoever reads no further lets the source go", async () => {
  let left = false;
  async function* source(): AsyncGenerator<number> {
    try {
      yield* numbers(100);
    } finally {
      left = true;
    }
  }
  for await (const n of inOrder(source(), async (n) => n, 2)) if (n === 3) break;
  await turns(20);
  expect(left).toBe(true);
});
