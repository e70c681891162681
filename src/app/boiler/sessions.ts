import type { ReadonlySignal } from "@preact/signals";
import type { Earcon } from "../../answer/earcon.ts";
import { talkAfter } from "../../answer/talk.ts";
import type { Reply } from "../../answer/turn.ts";
import { elapsedMs } from "../../device/clock.ts";
import type { Notebook } from "../../device/notebook/notebook.ts";
import { reasonOf, troubleOf } from "../../device/notebook/trouble.ts";
import type { Entry } from "../../visit/entry.ts";
import type { Steering } from "../key-words/steering.ts";
import type { Mind } from "../mind.ts";
import type { Signing } from "../safekeeping/signing.ts";
import type { Settings } from "../settings.ts";
import type { Clips } from "../sound/clips.ts";
import type { Listening } from "../sound/listening.ts";
import type { Session } from "./session.ts";
import type { SessionWorld } from "./session-world.ts";
import { storeAnew } from "./store-anew.ts";

/** What opening a visit needs of the app around it. */
export interface SessionsWorld {
  readonly notebook: Notebook;
  readonly now: () => string;
  readonly breathe: () => Promise<void>;
  readonly mind: () => Promise<Mind>;
  readonly clips: Clips;
  readonly listening: Listening;
  /** What the key words do; null where none are heard. */
  readonly steering: ReadonlySignal<Steering | null>;
  readonly settings: () => Settings;
  /** Never rejects. */
  readonly changeSettings: (change: Partial<Settings>) => Promise<void>;
  readonly signing: Pick<Signing, "handOver">;
  /** Notes which visit is at the boiler. */
  readonly run: (visitId: string) => Promise<void>;
}

/** Opens stored visits. */
export class Sessions {
  readonly #world: SessionsWorld;

  constructor(world: SessionsWorld) {
    this.#world = world;
  }

  /** A visit at the boiler: its answers are spoken. Rejects where it cannot be read. */
  async atBoiler(id: string): Promise<Session> {
    const { clips, listening, run } = this.#world;
    const say = (text: string) => {
      clips.stop();
      void listening.say(text, earconFor(session.given.value.reply, text));
    };
    const session = await this.#open(id, say, () => run(id));
    return session;
  }

  /** A visit to look through: nobody is at the boiler, and nothing is said. Rejects where it cannot be read. */
  quiet(id: string): Promise<Session> {
    return this.#open(
      id,
      () => {},
      async () => {},
    );
  }

  async #open(id: string, say: SessionWorld["say"], storedAnew: () => Promise<void>): Promise<Session> {
    const { notebook, now, breathe, clips, settings, signing } = this.#world;
    const visit = await notebook.visit(id);
    const mind = await this.#world.mind();
    const opened: Promise<Session> = mind.resume(visit, {
      append: async (visitId, entries) => {
        await notebook.append(visitId, entries);
        // Beside the work; what fails here is tried again, and told, when the visit is handed over.
        if (entries.some(closes)) signing.handOver(visitId).catch(() => undefined);
      },
      entriesFrom: notebook.entriesFrom,
      onAdded: notebook.onAdded,
      storeAnew: async (whole) => {
        await storeAnew(notebook, whole);
        await storedAnew();
      },
      troubleOf,
      now,
      elapsed: elapsedMs,
      say,
      keepSound: (visitId, first, sound) => void clips.keep(visitId, first, sound),
      talk: () => settings().talk,
      effect: async (effect) => this.#do(effect, await opened),
      reason: reasonOf,
      breathe,
    });
    return opened;
  }

  async #do(effect: Reply["effect"], session: Session): Promise<void> {
    const { listening, settings, changeSettings, steering } = this.#world;
    switch (effect) {
      case "none":
        return;
      case "stop-listening":
        void listening.stop();
        return;
      case "rest":
        void (steering.value?.rest() ?? listening.stop());
        return;
      case "figure-by-figure":
        if (steering.value) steering.value.begin();
        else {
          session.told.value = NO_KEY_WORDS;
          void listening.say(NO_KEY_WORDS);
        }
        return;
      case "less-talk":
      case "more-talk":
        await changeSettings({ talk: talkAfter(settings().talk, effect) });
        return;
    }
  }
}

/** Whether somebody says by it that the log is right as it stands. */
function closes({ body }: Entry): boolean {
  return body.kind === "reviewed" || (body.kind === "mark" && body.mark === "finished");
}

const NO_KEY_WORDS = "Key words are not heard now: say it as a phrase, or type it.";

/** The tone of the reply; what is told unasked ("Ready", "Not saved") wants the technician's hands or eyes, or is a stop. */
function earconFor({ answer, earcon, judgement }: Reply, text: string): Earcon {
  if (text === answer) return earcon;
  return judgement.advice.action === "stop" ? "warning" : "asking";
}
