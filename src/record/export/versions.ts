import type { Entry, ItemBody } from "../../visit/entry.ts";
import { foldVisit } from "../../visit/fold.ts";
import { isItemBody } from "../../visit/item-body.ts";
import type { LoggedItem } from "../../visit/state.ts";
import type { Visit } from "../../visit/visit.ts";

/** What became of something that was logged. */
export const STATUSES = ["standing", "struck", "replaced"] as const;
export type Status = (typeof STATUSES)[number];

/** One thing as it was logged by one entry: at first, or in place of what it was before. */
export interface Version<Body extends ItemBody> {
  readonly visit: Visit;
  /** The item that it is or was; its time is when it was measured or done, however late it was mended. */
  readonly item: LoggedItem;
  /** The entry that logged this version. */
  readonly entry: Entry;
  readonly body: Body;
  readonly status: Status;
}

/** All that was ever logged of one kind, what was struck or replaced since too, in the order of the work. */
export function versionsOf<Kind extends ItemBody["kind"]>(
  visit: Visit,
  kind: Kind,
): readonly Version<Extract<ItemBody, { kind: Kind }>>[] {
  type Body = Extract<ItemBody, { kind: Kind }>;
  const isWanted = (body: ItemBody): body is Body => body.kind === kind;
  const logs = logsOf(visit.entries);
  return foldVisit(visit).items.flatMap((item) => {
    const log = logs.get(item.id) ?? [];
    return log.flatMap(({ entry, body }, place) => {
      const last = place === log.length - 1;
      const status = last ? (item.struckBy === null ? "standing" : "struck") : "replaced";
      return isWanted(body) ? [{ visit, item, entry, body, status }] : [];
    });
  });
}

interface Logged {
  readonly entry: Entry;
  readonly body: ItemBody;
}

/** By item its bodies one after the other, with the entry of each: what an entry only confirms is no other body. */
function logsOf(entries: readonly Entry[]): ReadonlyMap<string, readonly Logged[]> {
  const logs = new Map<string, Logged[]>();
  /** Only what is an item or was not understood can be replaced. */
  const replaceable = new Set<string>();
  for (const entry of entries) {
    const { id, body } = entry;
    if (isItemBody(body)) {
      logs.set(id, [{ entry, body }]);
      replaceable.add(id);
      continue;
    }
    switch (body.kind) {
      case "unsure":
        replaceable.add(id);
        break;
      case "replace": {
        const log = logs.get(body.target) ?? [];
        const isSame = JSON.stringify(log.at(-1)?.body) === JSON.stringify(body.with);
        if (replaceable.has(body.target) && !isSame)
          logs.set(body.target, [...log, { entry, body: body.with }]);
        break;
      }
      case "strike":
      case "answer":
      case "reviewed":
      case "details":
      case "tasks":
        break;
    }
  }
  return logs;
}
