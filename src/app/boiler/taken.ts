import type { Amending, Turn } from "../../answer/turn.ts";
import type { Entry } from "../../visit/entry.ts";
import type { Visit } from "../../visit/visit.ts";
import type { Incoming, SessionWorld } from "./session-world.ts";

/** What was understood and is to be stored, which commands "repeat" is then of, and of what it came. */
export interface Taken {
  readonly ok: true;
  readonly turn: Pick<Turn, "entries" | "visit" | "reply">;
  readonly asked: Turn["asked"];
  readonly incoming: Incoming;
}

/** What comes of a phrase or a correction by hand where a visit stands like this; or why it cannot be. Nothing is stored. */
export function understood(
  { take, amend, talk }: Pick<SessionWorld, "take" | "amend" | "talk">,
  visit: Visit,
  incoming: Incoming,
  asked: Turn["asked"],
): Taken | Extract<Amending, { ok: false }> {
  if ("amendment" in incoming) {
    const amending = amend(visit, incoming.amendment, incoming.at, talk());
    return amending.ok ? { ...amending, asked: [], incoming } : amending;
  }
  const turn = take(visit, incoming.phrase, incoming.at, talk(), asked);
  return { ok: true, turn, asked: turn.asked, incoming };
}

/** Whether any of these corrects an entry with one of these ids. */
export function changesAny(entries: readonly Entry[], ids: ReadonlySet<string>): boolean {
  return entries.some(({ body }) => "target" in body && ids.has(body.target));
}
