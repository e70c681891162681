import type { Judgement } from "../judge/judgement.ts";
import { capital } from "../measure/capital.ts";
import { quantityOf } from "../measure/quantity.ts";
import { shownValue } from "../measure/show.ts";
import { shownText } from "../measure/text.ts";
import type { Entry, Reading } from "../visit/entry.ts";
import type { LoggedItem, VisitState } from "../visit/state.ts";
import { freshReadings, itemSaid } from "./logged.ts";
import { questionOf } from "./question.ts";
import { spokenBody } from "./things.ts";

/**
 * The one large thing on screen after an utterance that brought the entries `since`: its question, its first reading, what
 * it struck, mended or logged; after one that logged nothing the next step, for an old reading would stand there unjudged.
 */
export function headlineOf(state: VisitState, since: readonly Entry[], judgement: Judgement): string {
  const question = questionOf(state, since);
  if (question !== "") return shownText(question);
  const [fresh] = freshReadings(state, since);
  if (fresh) return capital(readingShown(state, fresh.reading));
  if (since.length === 0) return state.items.length === 0 ? "Ready" : stepShown(judgement);
  const item = state.items.findLast((one) => one.struckBy === null && since.some((e) => isOf(e, one)));
  if (item) return capital(shownText(itemSaid(item.body, judgement)));
  const struck = since.findLast(({ body }) => body.kind === "strike")?.body;
  const gone = struck?.kind === "strike" && state.items.find(({ id }) => id === struck.target);
  return gone ? `Struck: ${itemShown(state, gone)}` : stepShown(judgement);
}

/** Whether an entry brought the item, or mended it. */
function isOf({ id, body }: Entry, item: LoggedItem): boolean {
  return (body.kind === "replace" ? body.target : id) === item.id;
}

function itemShown(state: VisitState, { body }: LoggedItem): string {
  return body.kind === "reading" ? readingShown(state, body) : shownText(spokenBody(body));
}

/** "CO2 9.2 %"; of another firing than the boiler is in with its name: "high fire CO2 9.2 %". */
function readingShown(state: VisitState, { quantity, value, unit, firing }: Reading): string {
  const shown = `${quantityOf(quantity).name} ${shownValue(value, unit)}`;
  return firing === null || firing === state.firing?.firing ? shown : `${firing} fire ${shown}`;
}

/** What comes next, without its full stop. */
function stepShown({ next, stage }: Judgement): string {
  if (next !== "") return shownText(next).replace(/\.$/, "");
  return stage === "finished" ? "Finished" : "Ready";
}
