import type { Earcon } from "../answer/earcon.ts";
import type { Voice } from "./voice/voice.ts";

/** The voice of the app. */
export interface Speaker {
  /**
   * Speaks a text after those still being spoken, behind the tone that goes with it; resolves when it is over, at once
   * where no voice can say it. Of an empty text the tone sounds alone.
   */
  speak(text: string, earcon?: Earcon): Promise<void>;
  /** Falls silent now; waiting texts are dropped and their promises resolve. */
  cancel(): void;
}

/** The texts between two cancellations. */
interface Round {
  readonly cut: Promise<void>;
  readonly end: () => void;
}

/** A speaker over several voices, the preferred first; a text that none of them can say stays on the screen alone. */
export function createSpeaker(voices: readonly Voice[], tone: (earcon: Earcon) => Promise<void>): Speaker {
  let round = newRound();
  let last: Promise<void> = Promise.resolve();

  const tell = async (text: string, earcon: Earcon, mine: Round): Promise<void> => {
    if (round === mine) await tone(earcon);
    if (text === "") return;
    for (const voice of voices) {
      if (round !== mine || (await voice.say(text))) return;
    }
  };

  return {
    speak(text, earcon = "none") {
      if (text === "" && earcon === "none") return Promise.resolve();
      const mine = round;
      last = last.then(() => tell(text, earcon, mine));
      return Promise.race([last, mine.cut]);
    },
    cancel() {
      round.end();
      round = newRound();
      last = Promise.resolve();
      for (const voice of voices) voice.cancel();
    },
  };
}

function newRound(): Round {
  let end: () => void = () => undefined;
  const cut = new Promise<void>((resolve) => {
    end = resolve;
  });
  return { cut, end };
}
