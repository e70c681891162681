import { readFileSync } from "node:fs";
import type { Plugin } from "vite";

const MODULES = /\/zod\/v4\/core\/(?:to-json-schema|json-schema-processors)\.js$/;
const EXPORT = /^export (?:const|function) (\w+)|^export \{ \w+ as (\w+) \}/gm;

/**
 * Leaves zod's writer of JSON Schema out of the built app (4 kB): only the command line writes them. Each of its functions is
 * there, and throws.
 */
export function noSchemaPlugin(): Plugin {
  return {
    name: "burnerside-no-schema",
    apply: "build",
    load(id) {
      if (!MODULES.test(id)) return null;
      const names = [...readFileSync(id, "utf8").matchAll(EXPORT)].map(([, own, as]) => own ?? as);
      if (names.length === 0) this.error(`expected exports in ${id}, found none`);
      return `const none = () => { throw new Error("the app writes no JSON Schema"); };
        export { ${names.map((name) => `none as ${name}`).join(", ")} };`;
    },
  };
}
