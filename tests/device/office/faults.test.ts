import "fake-indexeddb/auto";
import { describe, expect, test } from "vitest";
import { RULES } from "../../../src/app/office/rules.ts";
import { type OfficeStore, openOfficeStore } from "../../../src/device/office/store.ts";
import { type Export, exportOf } from "../../../src/record/office/kept.ts";
import { NOTHING_FOUND } from "../../../src/record/office/log-found.ts";
import type { Visit } from "../../../src/visit/visit.ts";
import { VISIT } from "../../record/visit.ts";
import { type Operation, underEveryFault } from "../../support/every-fault.ts";
import { andThen, upTo } from "../../support/office.ts";

const { id } = VISIT.head;
const AT = "2026-11-26T10:00:00.000Z";
const sent = (visit: Visit): Export => exportOf(visit, NOTHING_FOUND, "x.json", AT);
const EARLY = sent(upTo(VISIT, 2));
const WHOLE = sent(VISIT);
const LATER = sent(andThen(VISIT, { kind: "note", text: "order a gasket" }));
const OTHER = sent({ ...VISIT, head: { ...VISIT.head, id: "v2" } });
const MARK = { key: "k", visitId: id, at: AT, by: "R. T." };

const keep =
  (...exports: Export[]) =>
  (store: OfficeStore) =>
    store.keep(exports);

const WRITING: readonly [string, Operation<OfficeStore>][] = [
  ["keep, of new visits", { run: keep(WHOLE, OTHER) }],
  ["keep, of one that goes on", { prepare: keep(EARLY), run: keep(WHOLE, LATER) }],
  ["judgeAnew", { prepare: keep(WHOLE, LATER), run: (store) => store.judgeAnew([id]) }],
  [
    "dropVisit",
    {
      prepare: async (store) => {
        await store.keep([WHOLE, OTHER]);
        await store.markDone(MARK);
      },
      run: (store) => store.dropVisit(id),
    },
  ],
  ["dropAll", { prepare: keep(WHOLE, OTHER), run: (store) => store.dropAll() }],
  ["markDone", { run: (store) => store.markDone(MARK) }],
  ["undoDone", { prepare: (store) => store.markDone(MARK), run: (store) => store.undoDone("k") }],
];

const READING: readonly [string, Operation<OfficeStore>][] = [
  ["visits", { prepare: keep(WHOLE), run: (store) => store.visits() }],
  ["ids", { prepare: keep(WHOLE), run: (store) => store.ids() }],
  ["has", { prepare: keep(WHOLE), run: (store) => store.has(id, WHOLE.text) }],
  ["standing", { prepare: keep(WHOLE), run: (store) => store.standing([id]) }],
  ["text", { prepare: keep(WHOLE), run: (store) => store.text(id, 1) }],
  ["done", { prepare: (store) => store.markDone(MARK), run: (store) => store.done() }],
];

const opened = (name: string) => openOfficeStore(RULES, name);

describe("whatever step in the office's database fails, nothing is half stored, it is said why, and the next try works", () => {
  test.each([...WRITING, ...READING])("%s", async (_, operation) => {
    expect(await underEveryFault(opened, operation)).toBeGreaterThan(0);
  });
});
