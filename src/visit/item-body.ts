import type { EntryBody, ItemBody } from "./entry.ts";

/** Every kind once: the compiler asks for a new one. */
const KINDS: Readonly<Record<ItemBody["kind"], true>> = {
  reading: true,
  firing: true,
  adjustment: true,
  note: true,
  check: true,
  mark: true,
};

/** Whether an entry says something about the boiler or the work, as against corrections, questions and reviews. */
export function isItemBody(body: EntryBody): body is ItemBody {
  return Object.hasOwn(KINDS, body.kind);
}
