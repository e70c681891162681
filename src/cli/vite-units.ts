import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Plugin } from "vite";
import { factor, scaleOf } from "../measure/scale.ts";
import { baseOf, UNITS } from "../measure/unit.ts";

const SOURCES = fileURLToPath(new URL("..", import.meta.url));
const CALL = /\bfactor\(([^)]*)\)/g;
const LITERALS = /^"([^"]+)", "([^"]+)"$/;

/**
 * Asks the unit library when the app is built instead of each time that it is loaded: what it answers is a few numbers,
 * itself it is 15 kB. Takes the place of src/measure/scale.ts; a call with other than literal units stops the build.
 */
export function unitsPlugin(): Plugin {
  return {
    name: "burnerside-units",
    apply: "build",
    load(id) {
      if (!id.endsWith("/src/measure/scale.ts")) return null;
      const scales = UNITS.map((unit) => [`${unit} ${baseOf(unit)}`, scaleOf(unit, baseOf(unit))]);
      const factors = askedFactors().map(([from, to]) => [`${from} ${to}`, factor(from, to)]);
      return `
        const SCALES = ${JSON.stringify(Object.fromEntries(scales))};
        const FACTORS = ${JSON.stringify(Object.fromEntries(factors))};
        const known = (table, from, to) => {
          const found = table[from + " " + to];
          if (found === undefined) throw new Error("the build did not ask for " + from + " in " + to);
          return found;
        };
        export const scaleOf = (unit, base) => known(SCALES, unit, base);
        export const factor = (from, to) => known(FACTORS, from, to);
      `;
    },
  };
}

/** The units of every call of `factor` in the sources. */
function askedFactors(): (readonly [from: string, to: string])[] {
  const files = readdirSync(SOURCES, { recursive: true, encoding: "utf8" }).filter(
    (file) => /\.tsx?$/.test(file) && !/^(cli|measure\/scale)/.test(file),
  );
  return files.flatMap((file) =>
    [...readFileSync(`${SOURCES}/${file}`, "utf8").matchAll(CALL)].map(([call, units = ""]) => {
      const [, from, to] = LITERALS.exec(units) ?? [];
      if (from === undefined || to === undefined)
        throw new Error(`${file}: expected two literal units in ${call}`);
      return [from, to] as const;
    }),
  );
}
