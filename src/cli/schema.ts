import { writeFile } from "node:fs/promises";
import { schemaFiles } from "../record/json-schema.ts";
import type { Verb } from "./verb.ts";

/** Prints the JSON Schemas of the formats, or writes them to where they are published. */
export const schema: Verb = {
  usage: "schema [--write]",
  async run(args, io) {
    if (args.some((arg) => arg !== "--write")) {
      io.say(`schema: expected nothing or --write, found ${args.join(" ")}.`);
      return 2;
    }
    for (const { name, text } of schemaFiles()) {
      if (args.length === 0) io.json(JSON.parse(text));
      else {
        await writeFile(new URL(`../record/schema/${name}`, import.meta.url), text);
        io.say(`Wrote src/record/schema/${name}.`);
      }
    }
    return 0;
  },
};
