import { describe, expect, test } from "vitest";
import { helperInWorkers, type OfficeWorker } from "../../../src/app/office/helper.ts";
import type { FromOffice, ToOffice } from "../../../src/app/office/messages.ts";
import { NOTHING_YET, type Told } from "../../../src/app/office/take-in.ts";

/** A worker that answers as it is told to, and knows what it was asked. */
class Puppet {
  readonly asked: ToOffice[] = [];
  ended = false;
  readonly #heard = new Map<string, (event: never) => void>();

  postMessage(message: ToOffice): void {
    this.asked.push(message);
  }

  addEventListener(kind: string, hear: (event: never) => void): void {
    this.#heard.set(kind, hear);
  }

  terminate(): void {
    this.ended = true;
  }

  says(data: FromOffice): void {
    this.#heard.get("message")?.({ data } as never);
  }

  breaks(): void {
    this.#heard.get("error")?.({} as never);
  }
}

function puppets(cores: number) {
  const workers: Puppet[] = [];
  const helper = helperInWorkers(cores, () => {
    const worker = new Puppet();
    workers.push(worker);
    return worker as unknown as OfficeWorker;
  });
  return { helper, workers };
}

const files = (count: number) =>
  Array.from({ length: count }, (_, number) => new File(["{}"], `${number}.json`));
const shares = (workers: readonly Puppet[]) =>
  workers.map(({ asked }) => asked.map((each) => (each.kind === "take" ? each.files.length : each.kind)));
const told = (done: number): FromOffice => ({
  kind: "told",
  told: {
    progress: { ...NOTHING_YET, files: done, taken: { ...NOTHING_YET.taken, new: done } },
    changed: [],
    sentences: [],
  },
});

describe("taking in", () => {
  test.each([
    ["few files go to one worker", 8, 31, [[31]]],
    ["many are shared out to as many as there are cores", 2, 101, [[51], [50]]],
    ["and to four at most", 16, 400, [[100], [100], [100], [100]]],
  ])("%s", (_, cores, count, expected) => {
    const { helper, workers } = puppets(cores);
    void helper.take(files(count), () => undefined);
    expect(shares(workers)).toEqual(expected);
  });

  test("how far all are is told together, and they end with the work", async () => {
    const { helper, workers } = puppets(2);
    const heard: Told[] = [];
    const taking = helper.take(files(80), (one) => heard.push(one));
    const [a, b] = workers;
    a?.says(told(10));
    b?.says(told(7));
    a?.says(told(40));
    expect(heard.map(({ progress }) => [progress.files, progress.of, progress.taken.new])).toEqual([
      [10, 80, 10],
      [17, 80, 17],
      [47, 80, 47],
    ]);
    helper.stop();
    expect(workers.map(({ asked }) => asked.at(-1)?.kind)).toEqual(["stop", "stop"]);
    a?.says({ kind: "taken", stopped: false });
    b?.says({ kind: "taken", stopped: true });
    expect(await taking).toBe(true);
    expect(workers.map(({ ended }) => ended)).toEqual([true, true]);
  });

  test.each([
    ["a worker that breaks", (one: Puppet) => one.breaks(), "worker broke"],
    ["a store that fails", (one: Puppet) => one.says({ kind: "failed", reason: "no room" }), "no room"],
  ])("%s ends it for all", async (_, fail, reason) => {
    const { helper, workers } = puppets(2);
    const taking = helper.take(files(80), () => undefined);
    const [first] = workers;
    if (first) fail(first);
    await expect(taking).rejects.toThrow(reason);
    expect(workers.map(({ ended }) => ended)).toEqual([true, true]);
  });
});

test("an export is made in a worker of its own, also while files are taken in", async () => {
  const { helper, workers } = puppets(1);
  void helper.take(files(1), () => undefined);
  const exporting = helper.export("bundles", ["a"]);
  expect(workers).toHaveLength(2);
  const file = new Blob(["made"]);
  workers[1]?.says({ kind: "exported", file });
  expect(await exporting).toBe(file);
  expect(workers.map(({ ended }) => ended)).toEqual([false, true]);
});
