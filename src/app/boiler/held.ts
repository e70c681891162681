import { batch, signal } from "@preact/signals";
import type { Turn } from "../../answer/turn.ts";
import type { Warning } from "../../judge/judgement.ts";
import type { Visit } from "../../visit/visit.ts";
import type { Incoming } from "./session-world.ts";
import { signalWordOf } from "./signal-word.ts";

/** Why something was not saved, and whether that is because the visit is on the disk no more. */
export interface Unsaved {
  readonly reason: string;
  readonly gone: boolean;
}

/** What would have come of a phrase; null where that broke. */
export type Unstored = Pick<Turn, "visit" | "reply"> | null;

/**
 * What could not be stored: held in order, unanswered, until the person tries again or drops it. What could kill or hurt is
 * warned of all the same: a full disk must not silence it.
 */
export class Held {
  readonly incoming = signal<readonly Incoming[]>([]);
  /** Why it is not saved; null where there is nothing. */
  readonly trouble = signal<string | null>(null);
  /** Whether it cannot be, because the visit is on the disk no more: what is here is all there is of it. */
  readonly gone = signal(false);
  /** What it warns of that stands nowhere else, gravest first in each phrase. */
  readonly warnings = signal<readonly Warning[]>([]);
  /** The visit as it would be: what comes after is understood by it. */
  #visit: Visit | null = null;

  /** The visit with what is held, as far as that was understood; null where nothing is held, or none of it was. */
  get visit(): Visit | null {
    return this.#visit;
  }

  /** Holds one more, with what would have come of it; gives what is to be said of it: "" where it warns of nothing new. */
  add(incoming: Incoming, unstored: Unstored, standing: readonly Warning[], unsaved?: Unsaved): string {
    const known = [...standing, ...this.warnings.value];
    const fresh = (unstored?.reply.judgement.warnings ?? []).filter(
      (warning) =>
        isGrave(warning) && !known.some(({ code, text }) => code === warning.code && text === warning.text),
    );
    batch(() => {
      this.incoming.value = [...this.incoming.value, incoming];
      this.warnings.value = [...this.warnings.value, ...fresh];
      if (unsaved) {
        this.trouble.value = unsaved.reason;
        this.gone.value = unsaved.gone;
      }
    });
    this.#visit = unstored?.visit ?? this.#visit;
    return fresh.map(({ text }) => text).join(" ");
  }

  /** Gives back what was held, and holds nothing. */
  release(): readonly Incoming[] {
    const held = this.incoming.value;
    batch(() => {
      this.incoming.value = [];
      this.trouble.value = null;
      this.gone.value = false;
      this.warnings.value = [];
    });
    this.#visit = null;
    return held;
  }
}

/** Danger and warning, as against what has to be done again. */
function isGrave(warning: Warning): boolean {
  const word = signalWordOf([warning]);
  return word === "danger" || word === "warning";
}
