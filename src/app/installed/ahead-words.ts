import { AHEAD_SETS, type AheadSet } from "../../device/ahead-cache.ts";

export const SET_NAMES: Readonly<Record<AheadSet, string>> = {
  ear: "recogniser",
  voice: "voice",
  pdf: "PDF maker",
  office: "office page",
};

/** What is missing of a set after all tries. */
export interface Lack {
  /** Of how many files that this device uses how many are missing; null where not even their list could be had. */
  readonly files: { readonly missing: number; readonly of: number } | null;
  /** Why the first of them is, without a full stop. */
  readonly reason: string;
  /** Whether the device has no room for it. */
  readonly isFull: boolean;
}

/** What is missing, why, and what to do, in one sentence; null where nothing is. */
export function lackSentence(lacks: ReadonlyMap<AheadSet, Lack>): string | null {
  const [first] = lacks.values();
  if (!first) return null;
  const parts = AHEAD_SETS.flatMap((set) => partOf(set, lacks.get(set)));
  const todo = first.isFull
    ? "make room on this device, then fetch again"
    : "fetch again where there is a network";
  return `Still missing: ${parts.join(", ")} (${first.reason}); ${todo}.`;
}

function partOf(set: AheadSet, lack: Lack | undefined): string[] {
  if (!lack) return [];
  const { files } = lack;
  const isWhole = files === null || files.missing === files.of;
  return [`${isWhole ? "" : `${files.missing} of ${files.of} files of `}the ${SET_NAMES[set]}`];
}
