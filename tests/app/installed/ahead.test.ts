import { expect, test } from "vitest";
import { Ahead, type AheadState } from "../../../src/app/installed/ahead.ts";
import type { AheadCache, AheadSet } from "../../../src/device/ahead-cache.ts";

const THIS = {
  ear: [
    { file: "assets/ear/weights-1.bin", bytes: 300 },
    { file: "assets/ear/engine-plain.wasm", bytes: 50 },
    { file: "assets/ear/worker-1.js", bytes: 100 },
  ],
  voice: [{ file: "assets/voice/voice-1.wasm", bytes: 1000 }],
  pdf: [{ file: "assets/pdf/maker-1.js", bytes: 20 }],
  office: [{ file: "assets/office/worker-1.js", bytes: 8 }],
};
const NEWEST = { ...THIS, ear: [{ file: "assets/ear/weights-2.bin", bytes: 300 }] };

/** A device that keeps files in memory; `breaks` is a file that cannot be fetched. */
function device({ kept = [] as string[], breaks = "", list = THIS as unknown } = {}) {
  const files = new Map<AheadSet, Set<string>>([
    ["ear", new Set(kept)],
    ["voice", new Set()],
    ["pdf", new Set()],
    ["office", new Set()],
  ]);
  const fetched: string[] = [];
  const cache: AheadCache = {
    kept: async (set, all) => all.filter(({ file }) => files.get(set)?.has(file)),
    async fetch(set, all, received, signal) {
      for (const { file, bytes } of all) {
        if (files.get(set)?.has(file)) continue;
        await Promise.resolve();
        if (signal.aborted) throw new DOMException("", "AbortError");
        if (file === breaks) throw new Error("no network");
        received(bytes / 2);
        received(bytes / 2);
        fetched.push(file);
        files.get(set)?.add(file);
      }
    },
    async sweep(set, all) {
      const known = new Set(all.map(({ file }) => file));
      for (const file of files.get(set) ?? []) if (!known.has(file)) files.get(set)?.delete(file);
    },
  };
  const ahead = new Ahead({
    cache,
    list: async (which) => (which === "this" ? list : NEWEST),
    isUsed: (file) => !file.includes("plain"),
    reason: (error) => (error instanceof Error ? error.message : ""),
  });
  const seen: AheadState[] = [];
  ahead.states.subscribe(({ ear }) => seen.push(ear));
  return { ahead, fetched, files, seen };
}

test("what is there is looked at, and what an earlier version left is swept out", async () => {
  const { ahead, files } = device({ kept: ["assets/ear/weights-0.bin", "assets/ear/worker-1.js"] });
  expect(ahead.states.value.ear).toEqual({ kind: "unknown" });
  await ahead.look();
  expect(ahead.states.value).toEqual({
    ear: { kind: "missing", bytes: 400 },
    voice: { kind: "missing", bytes: 1000 },
    pdf: { kind: "missing", bytes: 20 },
    office: { kind: "missing", bytes: 8 },
  });
  expect([...(files.get("ear") ?? [])]).toEqual(["assets/ear/worker-1.js"]);
});

test("only what this device uses and does not have is fetched, and the progress never goes back", async () => {
  const { ahead, fetched, seen } = device({ kept: ["assets/ear/worker-1.js"] });
  await ahead.fetch("ear");
  expect(fetched).toEqual(["assets/ear/weights-1.bin"]);
  expect(ahead.states.value.ear).toEqual({ kind: "kept", bytes: 400 });
  const fractions = seen.flatMap((state) => (state.kind === "fetching" ? [state.fraction] : []));
  expect(fractions).toEqual([0.25, 0.625, 1]);
});

test("asked for twice it is fetched once", async () => {
  const { ahead, fetched } = device();
  await Promise.all([ahead.fetch("ear"), ahead.fetch("ear")]);
  expect(fetched).toEqual(["assets/ear/weights-1.bin", "assets/ear/worker-1.js"]);
});

test("a fetch that breaks off is told, keeps what came, and goes on from there", async () => {
  const { ahead, fetched } = device({ breaks: "assets/ear/worker-1.js" });
  await ahead.fetch("ear");
  expect(ahead.trouble.value).toBe(
    "Not all could be fetched (no network): try again where there is a network.",
  );
  expect(ahead.states.value.ear).toEqual({ kind: "missing", bytes: 400 });
  expect(fetched).toEqual(["assets/ear/weights-1.bin"]);
});

test.each(["the button", "who waited for it"])("cancelled by %s it is no trouble", async (by) => {
  const { ahead, fetched } = device();
  const given = new AbortController();
  const fetching = ahead.fetch("ear", given.signal);
  if (by === "the button") {
    await Promise.resolve();
    await Promise.resolve();
    ahead.cancel("ear");
  } else given.abort();
  await fetching;
  expect(ahead.trouble.value).toBeNull();
  expect(ahead.states.value.ear.kind).toBe("missing");
  expect(fetched.length).toBeLessThan(2);
});

test("of the newest version, what of this one is kept is fetched, and nothing else", async () => {
  const { ahead, fetched } = device();
  await ahead.look();
  await ahead.fetchNewest();
  expect(fetched).toEqual([]);
  await ahead.fetch("ear");
  await ahead.fetchNewest();
  expect(fetched.at(-1)).toBe("assets/ear/weights-2.bin");
  expect(ahead.states.value.voice.kind).toBe("missing");
});

test("a list that cannot be read: nothing can be kept", async () => {
  const { ahead } = device({ list: { ear: [{ file: 1 }] } });
  await ahead.look();
  expect(ahead.states.value.ear).toEqual({ kind: "impossible" });
});
