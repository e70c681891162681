import { Sheet } from "../../visit/sheet.ts";
import { read } from "../readers.ts";

const VALUES = import.meta.glob<unknown>("../../../demo-data/sheets/*.json", {
  import: "default",
  eager: true,
});

/** The sheets of the invented scenario. Throws, naming file and place, where one is bad: a fault of the build. */
export function demoSheets(): Sheet[] {
  return Object.entries(VALUES).map(([file, value]) => {
    const sheet = read(Sheet, value);
    if (sheet.ok) return sheet.value;
    throw new Error(`${file}: ${sheet.problem}`);
  });
}
