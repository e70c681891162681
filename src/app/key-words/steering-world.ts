import type { Speaker } from "../../device/speaker.ts";
import type { Spotter } from "../../device/spotter/spotter.ts";
import type { Phrase } from "../../meaning/heard.ts";
import type { Session } from "../boiler/session.ts";
import type { Settings } from "../settings.ts";
import type { Listening } from "../sound/listening.ts";

/** What the key words steer, and by what. */
export interface SteeringWorld {
  readonly listening: Listening;
  readonly spotter: Spotter;
  readonly speaker: Pick<Speaker, "speak">;
  /** The visit at the boiler; a signal is read in it. */
  readonly session: () => Session | null;
  /** Hands a phrase to the visit. */
  readonly heard: (phrase: Phrase) => void;
  /** Wakes the phrase recogniser. */
  readonly wake: () => void;
  /** A signal is read in it. */
  readonly settings: () => Pick<Settings, "headset" | "keyWords">;
  /** Milliseconds, of the windows' clock. */
  readonly elapsed: () => number;
}
