import { createParser } from "../meaning/parser.ts";
import { loadLanguage } from "./language.ts";
import type { Verb } from "./verb.ts";

/** Reads one phrase per line, each standing alone, and writes its meaning as one JSON line. */
export const parse: Verb = {
  usage: "parse < PHRASES",
  async run(args, io) {
    if (args.length > 0) {
      io.say(
        `parse: expected no arguments, found "${args.join(" ")}"; phrases are read from standard input.`,
      );
      return 2;
    }
    const parser = createParser(loadLanguage());
    for await (const line of io.lines) io.json(parser.parse(line));
    return 0;
  },
};
