import { randomUUID } from "node:crypto";
import { talkAfter } from "../answer/talk.ts";
import { type Turn, takeTurn } from "../answer/turn.ts";
import { createParser } from "../meaning/parser.ts";
import { epochMs, isoTime } from "../measure/instant.ts";
import type { Visit } from "../visit/visit.ts";
import { loadLanguage } from "./language.ts";
import { refuse, type Verb } from "./verb.ts";
import { readVisitSettings, USAGE, type VisitSettings } from "./visit-flags.ts";

/** Plays a visit from lines of `phrase` or `ISO-time TAB phrase`; without a time, the wall clock's is taken. */
export const visit: Verb = {
  usage: USAGE,
  run: async (args, io) => {
    const settings = readVisitSettings(args);
    if (!settings.ok) return refuse(io, "visit", settings.problems, settings.isMisuse ? 2 : 1);
    for (const notice of settings.value.notices) io.say(`visit: ${notice}`);
    const parser = createParser(loadLanguage());
    let { talk } = settings.value;
    let asked: Turn["asked"] = [];
    let visit: Visit | null = null;
    let before: string | null = null;
    let number = 0;
    for await (const line of io.lines) {
      number += 1;
      if (line.trim() === "") continue;
      const { time, phrase } = split(line);
      const at = time === null ? isoTime(Date.now()) : utc(time);
      if (at === null) {
        const problem = `line ${number}: expected an ISO 8601 time before the tab, got "${time}"`;
        return refuse(io, "visit", [problem], 1);
      }
      if (before !== null && epochMs(at) < epochMs(before)) {
        io.say(`visit: line ${number}: expected a time from ${before} on, got ${at}; taken as it is.`);
      }
      before = at;
      visit ??= begin(settings.value, at);
      const heard = { text: phrase, engine: "typed", confidence: 1, sound: null } as const;
      const turn = takeTurn(parser, visit, heard, at, randomUUID, talk, asked);
      ({ visit, asked } = turn);
      talk = talkAfter(talk, turn.reply.effect);
      io.json(lineOf(turn, at));
    }
    return 0;
  },
};

/** The contract of one line on standard output. */
function lineOf(
  { reply: { answer, judgement }, meaning: { items: heard, unsure } }: Turn,
  at: string,
): object {
  const { verdicts, advice, warnings, stage, next } = judgement;
  return { at, heard, unsure, answer, verdicts, advice, warnings, stage, next };
}

function begin({ sheet, fuel, units }: VisitSettings, startedAt: string): Visit {
  const title = sheet?.title ?? "Visit without a limits sheet";
  return {
    format: "burnerside-visit/1",
    head: { id: randomUUID(), title, startedAt, zone: null, fuel, units, sheet },
    entries: [],
  };
}

function split(line: string): { time: string | null; phrase: string } {
  const tab = line.indexOf("\t");
  return tab < 0
    ? { time: null, phrase: line }
    : { time: line.slice(0, tab).trim(), phrase: line.slice(tab + 1) };
}

/** ISO 8601 with a date, a time of day and an offset or Z, in UTC; null where it is something else. */
function utc(time: string): string | null {
  const shape = /^\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d(\.\d+)?)?(Z|[+-]\d\d:\d\d)$/;
  const ms = shape.test(time) ? epochMs(time) : Number.NaN;
  return Number.isNaN(ms) ? null : isoTime(ms);
}
