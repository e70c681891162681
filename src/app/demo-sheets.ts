import { readSheet } from "../record/sheet-file.ts";
import type { Sheet } from "../visit/sheet.ts";

const TEXTS = import.meta.glob<string>("../../demo-data/sheets/*.json", {
  query: "?raw",
  import: "default",
  eager: true,
});

/** The sheets of the invented scenario. Throws, naming file and place, where one is bad: a fault of the build. */
export function demoSheets(): Sheet[] {
  return Object.entries(TEXTS).map(([file, text]) => {
    const result = readSheet(text);
    if (result.ok) return result.sheet;
    const problems = result.problems.map((problem) => `${problem.path}: ${problem.message}`);
    throw new Error(`${file}: ${problems.join("; ")}`);
  });
}
