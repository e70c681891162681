import { execFile } from "node:child_process";
import { cp, mkdir, writeFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { testFolder } from "../support/folder.ts";

// The import directions of the design and the purity of the pure folders are only as good as the linter's
// configuration: here forbidden lines are given to the real linter with the real configuration, beside allowed ones.

const PURE = ["measure", "meaning", "combustion", "visit", "judge", "answer", "record"];
const FOLDERS = [...PURE, "device", "app", "cli"];

/** What each folder may import from, besides itself. */
const MAY: Readonly<Record<string, readonly string[]>> = {
  measure: [],
  meaning: ["measure"],
  combustion: ["measure"],
  visit: ["measure", "combustion"],
  judge: ["measure", "combustion", "visit"],
  answer: ["measure", "meaning", "combustion", "visit", "judge"],
  record: ["measure", "combustion", "visit", "judge"],
  device: [],
  app: [...PURE, "device"],
  cli: [...PURE, "device"],
};

interface Case {
  readonly folder: string;
  readonly line: string;
  readonly allowed: boolean;
}
const yes = (folder: string, line: string): Case => ({ folder, line, allowed: true });
const no = (folder: string, line: string): Case => ({ folder, line, allowed: false });

const directions = FOLDERS.flatMap((folder) =>
  FOLDERS.filter((other) => other !== folder).map((other) => {
    const allowed = MAY[folder]?.includes(other) ?? false;
    return { folder, line: `import { x } from "../${other}/x.ts";`, allowed };
  }),
);

const pureLines = [
  ...["window.name", "document.title", "navigator.language", "localStorage.length", "fetch('x')"],
  ...["setTimeout(f, 1)", "setInterval(f, 1)", "performance.now()", "crypto.randomUUID()", "process.env"],
  ...["globalThis.name", "Math.random()", "Date.now()", "new Date()", "new Date", "Date()"],
].map((call) => `export const x = ${call};`);

const CASES: readonly Case[] = [
  ...directions,
  ...PURE.flatMap((folder) => [
    ...pureLines.map((line) => no(folder, line)),
    yes(folder, "export const x = new Date(0);"),
    yes(folder, 'export const x = Date.parse("2026-11-25T00:00:00Z");'),
    yes(folder, "export const x = Math.min(1, 2);"),
    yes(folder, "export const x = (window: string) => window;"),
    yes(folder, 'import { z } from "zod";'),
    yes(folder, 'import { x } from "./x.ts";'),
    no(folder, 'import Dexie from "dexie";'),
    no(folder, 'import { readFile } from "node:fs/promises";'),
    no(folder, 'import { x } from "../../app/deep/x.ts";'),
    no(folder, 'import type { X } from "../app/x.ts";'),
    no(folder, 'export { x } from "../cli/x.ts";'),
    no(folder, 'export const x = await import("../device/x.ts");'),
  ]),
  yes("visit", 'import { Item } from "../meaning/item.ts";'),
  yes("visit", 'import { Engine } from "../meaning/heard.ts";'),
  no("visit", 'import { createParser } from "../meaning/parser.ts";'),
  yes("record", 'import { Item } from "../meaning/item.ts";'),
  no("judge", 'import { Item } from "../meaning/item.ts";'),
  yes("record", 'import { visit } from "jsonc-parser";'),
  no("visit", 'import { visit } from "jsonc-parser";'),
  yes("measure", 'import { x } from "@atomic-ehr/ucum";'),
  no("combustion", 'import { x } from "@atomic-ehr/ucum";'),
  ...PURE.flatMap((other) => [
    yes("device", `import type { X } from "../${other}/x.ts";`),
    yes("device", `import type { X } from "../../${other}/x.ts";`),
    no("device", `import * as x from "../../${other}/x.ts";`),
    no("device", `import x, { type X } from "../${other}/x.ts";`),
    no("device", `import "../${other}/x.ts";`),
    no("device", `export { x } from "../${other}/x.ts";`),
    no("device", `export * from "../${other}/x.ts";`),
    no("device", `export const x = await import("../${other}/x.ts");`),
  ]),
  yes("device", '/* why */ import type { X } from "../visit/x.ts";'),
  yes("device", 'import { x } from "./ears/measure.ts";'),
  yes("device", 'import Dexie from "dexie";'),
  yes("device", "export const x = Date.now();"),
  ...FOLDERS.flatMap((folder) => [
    no(folder, 'export const x = eval("1");'),
    no(folder, 'export const x = new Function("return 1");'),
    no(folder, 'export const x = Function("return 1");'),
    yes(folder, "export const x: Function = () => 1;"),
  ]),
];

/** Of all that the linter may say about these lines, only what this test is about. */
const OURS = /^(plugin|lint\/style\/noRestricted(Imports|Globals)|lint\/security\/noGlobalEval)$/;

const { path: folder } = testFolder();
const refused = new Set<string>();

beforeAll(async () => {
  await cp("biome.json", join(folder, "biome.json"));
  await cp(".gitignore", join(folder, ".gitignore"));
  await cp("src/lint", join(folder, "src/lint"), { recursive: true });
  await Promise.all(CASES.map((one, place) => put(join(folder, pathOf(one, place)), `${one.line}\n`)));
  for (const { category, location } of await lint(folder))
    if (OURS.test(category)) refused.add(location.path);
});

describe.each(FOLDERS)("%s", (folder) => {
  const cases = CASES.map((one, place) => ({ ...one, place })).filter((one) => one.folder === folder);
  test.each(cases)("$line allowed: $allowed", (one) => {
    expect(refused.has(pathOf(one, one.place))).toBe(!one.allowed);
  });
});

function pathOf(one: Case, place: number): string {
  return `src/${one.folder}/case-${place}.ts`;
}

async function put(path: string, text: string): Promise<void> {
  await mkdir(dirname(path), { recursive: true });
  await writeFile(path, text);
}

interface Diagnostic {
  readonly category: string;
  readonly location: { readonly path: string };
}

function lint(folder: string): Promise<readonly Diagnostic[]> {
  const biome = join(process.cwd(), "node_modules/.bin/biome");
  const args = ["lint", "--reporter=json", "--max-diagnostics=none", "src"];
  return new Promise((resolve, reject) => {
    execFile(biome, args, { cwd: folder, maxBuffer: 64 * 1024 * 1024 }, (_failed, stdout, stderr) => {
      try {
        resolve(JSON.parse(stdout).diagnostics);
      } catch {
        reject(new Error(`Expected the linter's report, found: ${stdout}${stderr}`));
      }
    });
  });
}
