/** Who has marked a follow-up as done, and when (ISO 8601). */
export interface DoneMark {
  readonly at: string;
  readonly by: string;
}

/** What somebody has marked as done since a visit, by the follow-up's key (office/follow-ups.ts): no bundle says it. */
export type DoneMarks = ReadonlyMap<string, DoneMark>;

export const NONE_DONE: DoneMarks = new Map();
