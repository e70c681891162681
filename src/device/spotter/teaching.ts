import { type Ended, type FromWork, startWork, type Work } from "../work.ts";
import type { BaseModel } from "./base.ts";
import type { Gain, TaughtSpotter } from "./profile.ts";
import type { Take } from "./take.ts";
import type { TeachOptions } from "./teach.ts";
import workerUrl from "./teach.worker.ts?worker&url";

export interface TeachRequest {
  readonly base: BaseModel;
  /** Two classes at least; better all, with some of the room's own noise. */
  readonly takes: readonly Take[];
  /** Takes that are not learned from: what was gained is measured on them. */
  readonly heldBack: readonly Take[];
  readonly options: Partial<TeachOptions>;
}

/** `gain` is null where nothing was held back. */
interface Taught {
  readonly kind: "taught";
  readonly taught: TaughtSpotter;
  readonly gain: Gain | null;
}
export type TeachOutcome = Ended<Taught>;
export type FromTeacher = FromWork<Taught>;
/** A training that runs in a worker of its own. */
export type Teaching = Work<Taught>;

/** @param progress told the fraction done, 0 to 1 */
export function startTeaching(request: TeachRequest, progress: (fraction: number) => void): Teaching {
  return startWork(workerUrl, request, progress);
}
