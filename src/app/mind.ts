import language from "virtual:language/parser";
import { contextOf } from "../answer/context.ts";
import { standing, takeAmendment, takeTurn } from "../answer/turn.ts";
import { newId } from "../device/ids.ts";
import { choose } from "../meaning/choose.ts";
import { parserOf } from "../meaning/parser.ts";
import { steers } from "../meaning/steers.ts";
import { unpackLanguage } from "../meaning/unpack.ts";
import type { Visit } from "../visit/visit.ts";
import type { Afterwards, AfterwardsWorld } from "./afterwards/afterwards.ts";
import { Session } from "./boiler/session.ts";
import type { SessionWorld } from "./boiler/session-world.ts";
import type { Understanding } from "./sound/listening.ts";

/** What a session asks of the parser and the answers. */
type Thought = Pick<SessionWorld, "take" | "amend" | "stand" | "understand">;

/** What understands phrases and answers them: most of the app's code, which the first screen does without. */
export interface Mind extends Understanding, Thought {
  /** A visit goes on. */
  readonly resume: (visit: Visit, world: Omit<SessionWorld, keyof Thought>) => Promise<Session>;
  /** Visits are looked through; what that takes is loaded then. Rejects where it cannot be loaded. */
  readonly lookThrough: (world: Omit<AfterwardsWorld, "parse" | "understand">) => Promise<Afterwards>;
}

export function createMind(): Mind {
  const parser = parserOf(unpackLanguage(language));
  const thought: Thought = {
    take: (visit, phrase, at, talk, asked) => takeTurn(parser, visit, phrase, at, newId, talk, asked),
    amend: (visit, amendment, at, talk) => takeAmendment(parser, visit, amendment, at, newId, talk),
    stand: standing,
    understand: (text, before) => parser.understood(text, contextOf(before)),
  };
  return {
    ...thought,
    choose: (utterance) => choose(utterance, (text) => parser.parse(text)),
    steers: (text) => steers(parser.parse(text)),
    resume: (visit, world) => Session.open(visit, { ...world, ...thought }),
    lookThrough: async (world) => {
      const { Afterwards } = await import("./afterwards/afterwards.ts");
      return new Afterwards({
        ...world,
        parse: (text) => parser.parse(text),
        understand: thought.understand,
      });
    },
  };
}
