import { readImport } from "../../../../src/app/start/import-file.ts";
import { fileProblems } from "../../../../src/record/any-file.ts";
import { exportVisit, importVisit } from "../../../../src/record/bundle.ts";
import { readJson } from "../../../../src/record/json.ts";
import { exportOf } from "../../../../src/record/office/kept.ts";
import { NOTHING_FOUND } from "../../../../src/record/office/log-found.ts";
import type { Json } from "../../../../src/record/plain-json.ts";
import { reportOf } from "../../../../src/record/report/report.ts";
import { exportSheet, readSheet } from "../../../../src/record/sheet-file.ts";
import { decodeText } from "../../../../src/record/utf8.ts";
import { foldVisit } from "../../../../src/visit/fold.ts";
import type { Visit } from "../../../../src/visit/visit.ts";
import type { Chance } from "../../../support/valve/chance.ts";
import { AWKWARD, BUNDLES, SHEETS, WHOLE } from "../corpus.ts";
import { clearLine, clearProblems, same } from "../expect.ts";
import { anyJson, brokenJson } from "../json.ts";
import { broken, brokenBytes, noise, pick } from "../mutate.ts";
import { Fault, type Target, target, type Verdict } from "../target.ts";

const TEXTS = [...BUNDLES, ...SHEETS, ...AWKWARD];
const utf8 = new TextEncoder();
const strict = new TextDecoder("utf-8", { fatal: true });

/** A file of one kind with something wrong inside or in its text; now and then as it is, or nothing of the kind. */
export function drawText(chance: Chance, texts: readonly string[]): string {
  if (chance.is(0.02)) return noise(chance, 60);
  if (chance.is(0.02)) return JSON.stringify(anyJson(chance));
  const text = pick(chance, texts);
  if (chance.is(0.03)) return text;
  return chance.is(0.6) ? brokenJson(chance, JSON.parse(text)) : broken(chance, text, TEXTS);
}

const LATER = "2026-12-01T08:00:00.000Z";

/** What is done with a visit that was taken: none of it may throw, however odd the visit. */
function useVisit(visit: Visit, text: string): void {
  foldVisit(visit);
  const again = exportVisit(visit);
  same(importVisit(again), { ok: true, visit }, "exported and read again");
  // Judging takes as long as reading twenty.
  if (text.length % 16 !== 0) return;
  exportOf(visit, NOTHING_FOUND, "x.json", LATER);
  reportOf(visit, LATER, { finding: { kind: "unsigned", linked: false }, trouble: null });
}

/** A sheet or a visit through every reader of files: they must agree on whether it is sound. */
function readAll(bytes: Uint8Array): Verdict {
  const read = readImport("x.json", bytes);
  const decoded = decodeText(bytes);
  const problems = decoded.ok ? fileProblems(decoded.text) : decoded.problems;
  if (read.kind !== "bad") {
    if (problems.length > 0) throw new Fault(`one reader takes it, another finds ${problems[0]?.message}`);
    return "accepted";
  }
  clearProblems(problems);
  if (read.sentences.length !== problems.length) throw new Fault("two readers find other problems");
  for (const [place, sentence] of read.sentences.entries()) {
    clearLine(sentence);
    if (!sentence.endsWith(problems[place]?.message ?? "?"))
      throw new Fault("two readers tell other problems");
  }
  return "refused";
}

/** Whether a text is UTF-8, as the platform has it. */
function decodedByPlatform(bytes: Uint8Array): string | null {
  try {
    return strict.decode(bytes);
  } catch {
    return null;
  }
}

/** Outside reference: the engine's own JSON.parse. Ours is stricter in three things only. */
const STRICTER = /once|__proto__|levels/;

function readByEngine(text: string): { readonly value: Json } | null {
  try {
    return { value: JSON.parse(text) };
  } catch {
    return null;
  }
}

/** What the engine takes and ours must not. */
const HOSTILE = [
  '{"a":1,"b":2,"a":3}',
  '{"a":1,"\\u0061":1}',
  '{"__proto__":{"polluted":true}}',
  '{"\\u005f_proto__":1}',
  `${"[".repeat(70)}${"]".repeat(70)}`,
];

/** Something hostile, somewhere inside of a value. */
function hidden(chance: Chance, value: Json): string {
  const text = JSON.stringify({ before: value, here: 0, ":": 'a":"b' });
  return text.replace('"here":0', `"here":${pick(chance, HOSTILE)}`);
}

export const FILES: readonly Target[] = [
  target<string>({
    name: "visit bundle",
    inputs: 16_000,
    draw: (chance) => drawText(chance, chance.is(0.03) ? WHOLE : BUNDLES),
    read: (text) => {
      const read = importVisit(text);
      if (read.ok) useVisit(read.visit, text);
      else clearProblems(read.problems);
      return read.ok ? "accepted" : "refused";
    },
  }),
  target<string>({
    name: "limits sheet",
    inputs: 16_000,
    draw: (chance) => drawText(chance, SHEETS),
    read: (text) => {
      const read = readSheet(text);
      if (read.ok) same(readSheet(exportSheet(read.sheet)), { ok: true, sheet: read.sheet }, "exported");
      else clearProblems(read.problems);
      return read.ok ? "accepted" : "refused";
    },
  }),
  target<Uint8Array>({
    name: "any file, as bytes",
    inputs: 10_000,
    draw: (chance) => {
      const bytes = utf8.encode(drawText(chance, [...BUNDLES.slice(0, 8), ...SHEETS]));
      return chance.is(0.5) ? brokenBytes(chance, bytes) : bytes;
    },
    read: readAll,
  }),
  target<Uint8Array>({
    name: "UTF-8",
    inputs: 10_000,
    draw: (chance) => {
      const text = chance.is(0.5) ? noise(chance, 200) : pick(chance, SHEETS);
      const bytes = utf8.encode(text);
      return chance.is(0.8) ? brokenBytes(chance, bytes) : bytes;
    },
    read: (bytes) => {
      const [ours, platform] = [decodeText(bytes), decodedByPlatform(bytes)];
      if (!ours.ok) clearProblems(ours.problems);
      // Zero bytes in a pair with others are told to be UTF-16.
      const isZero = bytes.subarray(0, 4).includes(0);
      if (ours.ok ? ours.text !== platform : platform !== null && !isZero)
        throw new Fault("the platform's decoder reads it otherwise");
      return ours.ok ? "accepted" : "refused";
    },
  }),
  target<{ readonly text: string; readonly isHostile: boolean }>({
    name: "JSON",
    inputs: 24_000,
    draw: (chance) => {
      if (chance.is(0.1)) return { text: hidden(chance, anyJson(chance)), isHostile: true };
      const text = chance.is(0.6) ? JSON.stringify(anyJson(chance)) : pick(chance, SHEETS);
      return { text: chance.is(0.2) ? text : broken(chance, text, TEXTS), isHostile: false };
    },
    read: ({ text, isHostile }) => {
      const read = readJson(text);
      const engine = readByEngine(text.startsWith("\uFEFF") ? text.slice(1) : text);
      if (read.ok) {
        if (!engine) throw new Fault("the engine refuses it");
        if (isHostile) throw new Fault("what is hostile in it is taken");
        same(read.value, engine.value, "the engine reads it otherwise");
        return "accepted";
      }
      clearProblems(read.problems);
      if (engine && !read.problems.some(({ message }) => STRICTER.test(message)))
        throw new Fault(`the engine takes it, ours finds ${read.problems[0]?.message}`);
      return "refused";
    },
  }),
];
