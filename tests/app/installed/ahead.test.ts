import { expect, test } from "vitest";
import { Ahead, type AheadState } from "../../../src/app/installed/ahead.ts";
import type { AheadCache, AheadFile, AheadSet } from "../../../src/device/ahead-cache.ts";
import type { Missed } from "../../../src/device/fetch-each.ts";

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

/** A device that keeps files in memory; `breaks` are files that cannot be fetched, `full` says that it has no room. */
function device({
  kept = [] as string[],
  breaks = [] as string[],
  full = false,
  list = THIS as unknown,
} = {}) {
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
      const missed: Missed<AheadFile>[] = [];
      for (const each of all) {
        const { file, bytes } = each;
        if (files.get(set)?.has(file)) continue;
        await Promise.resolve();
        if (signal.aborted) throw new DOMException("", "AbortError");
        received(bytes / 2);
        if (breaks.includes(file)) {
          received(-bytes / 2);
          const error = full ? new DOMException("no room", "QuotaExceededError") : new Error("no network");
          missed.push({ file: each, error });
          continue;
        }
        received(bytes / 2);
        fetched.push(file);
        files.get(set)?.add(file);
      }
      return missed;
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

test("what cannot be fetched is told, the rest is kept, and the next fetch goes on from there", async () => {
  const breaks = ["assets/ear/weights-1.bin"];
  const { ahead, fetched, seen } = device({ breaks });
  await ahead.fetch("ear");
  expect(ahead.trouble.value).toBe(
    "Still missing: 1 of 2 files of the recogniser (no network); fetch again where there is a network.",
  );
  expect(ahead.states.value.ear).toEqual({ kind: "missing", bytes: 400 });
  expect(fetched).toEqual(["assets/ear/worker-1.js"]);
  const fractions = seen.flatMap((state) => (state.kind === "fetching" ? [state.fraction] : []));
  expect(fractions).toEqual([...fractions].sort((a, b) => a - b));
  breaks.length = 0;
  await ahead.fetch("ear");
  expect(ahead.trouble.value).toBeNull();
  expect(ahead.states.value.ear).toEqual({ kind: "kept", bytes: 400 });
  expect(fetched).toEqual(["assets/ear/worker-1.js", "assets/ear/weights-1.bin"]);
});

test("what is missing of several sets is told in one sentence, until each is there", async () => {
  const breaks = ["assets/ear/weights-1.bin", "assets/pdf/maker-1.js"];
  const { ahead } = device({ breaks });
  await Promise.all([ahead.fetch("ear"), ahead.fetch("voice"), ahead.fetch("pdf")]);
  expect(ahead.trouble.value).toBe(
    "Still missing: 1 of 2 files of the recogniser, the PDF maker (no network); fetch again where there is a network.",
  );
  breaks.shift();
  await ahead.fetch("ear");
  expect(ahead.trouble.value).toBe(
    "Still missing: the PDF maker (no network); fetch again where there is a network.",
  );
});

test("a device without room is told to make some", async () => {
  const { ahead } = device({ breaks: ["assets/voice/voice-1.wasm"], full: true });
  await ahead.fetch("voice");
  expect(ahead.trouble.value).toBe(
    "Still missing: the voice (no room); make room on this device, then fetch again.",
  );
});

test("what is to be used now and cannot be had is refused; without room it may be had all the same", async () => {
  const breaks = ["assets/pdf/maker-1.js"];
  const { ahead } = device({ breaks });
  await expect(ahead.need("pdf")).rejects.toThrow("Still missing: the PDF maker (no network); fetch again");
  breaks.length = 0;
  await expect(ahead.need("pdf")).resolves.toBeUndefined();
  const full = device({ breaks: ["assets/pdf/maker-1.js"], full: true });
  await expect(full.ahead.need("pdf")).resolves.toBeUndefined();
  const storeless = device({ list: null });
  await expect(storeless.ahead.need("pdf")).resolves.toBeUndefined();
});

test("without the list of files the whole set is told to be missing", async () => {
  const { ahead } = device({ list: null });
  await ahead.fetch("voice");
  expect(ahead.trouble.value).toMatch(
    /^Still missing: the voice \(.+\); fetch again where there is a network\.$/s,
  );
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

test("of the newest version all that can be is fetched before it is said that some could not", async () => {
  const breaks: string[] = [];
  const { ahead, fetched } = device({ breaks });
  await ahead.fetch("ear");
  await ahead.fetch("voice");
  breaks.push("assets/ear/weights-2.bin");
  NEWEST.voice[0] = { file: "assets/voice/voice-2.wasm", bytes: 1000 };
  await expect(ahead.fetchNewest()).rejects.toThrow("no network");
  expect(fetched.at(-1)).toBe("assets/voice/voice-2.wasm");
});

test("a list that cannot be read: nothing can be kept", async () => {
  const { ahead } = device({ list: { ear: [{ file: 1 }] } });
  await ahead.look();
  expect(ahead.states.value.ear).toEqual({ kind: "impossible" });
});
