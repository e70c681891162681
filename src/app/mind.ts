import language from "virtual:language/parser";
import { standing, takeTurn } from "../answer/turn.ts";
import { newId } from "../device/ids.ts";
import { choose } from "../meaning/choose.ts";
import { parserOf } from "../meaning/parser.ts";
import { steers } from "../meaning/steers.ts";
import { unpackLanguage } from "../meaning/unpack.ts";
import type { Visit } from "../visit/visit.ts";
import type { Understanding } from "./listening.ts";
import { Session, type SessionWorld } from "./session.ts";

/** What understands phrases and answers them: most of the app's code, which the first screen does without. */
export interface Mind extends Understanding {
  /** A visit goes on. */
  readonly resume: (visit: Visit, world: Omit<SessionWorld, "take" | "stand">) => Session;
}

export function createMind(): Mind {
  const parser = parserOf(unpackLanguage(language));
  return {
    choose: (utterance) => choose(utterance, (text) => parser.parse(text)),
    steers: (text) => steers(parser.parse(text)),
    resume: (visit, world) =>
      new Session(visit, {
        ...world,
        take: (before, phrase, at, talk, asked) => takeTurn(parser, before, phrase, at, newId, talk, asked),
        stand: standing,
      }),
  };
}
