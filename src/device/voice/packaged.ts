import type { Player } from "./player.ts";
import type { Sound, Synthesise } from "./synthesise.ts";
import type { Voice } from "./voice.ts";

/** An answer that comes later than this is none, ms: it may take that long to fetch the voice over a poor network. */
const PATIENCE_MS = 5000;

/** The packaged synthesiser, heard through the page's own sound. A sentence is said while the next is being made. */
export function createPackagedVoice(synthesise: Synthesise, player: Player, patienceMs = PATIENCE_MS): Voice {
  /** Counts cancellations, so that a text knows that it was cut off. */
  let cuts = 0;
  let cut: () => void = () => undefined;
  return {
    async say(text) {
      const mine = cuts;
      const isCut = new Promise<"cut">((resolve) => {
        cut = () => resolve("cut");
      });
      const make = (sentence: string | undefined): Promise<Sound | null> =>
        sentence === undefined ? Promise.resolve(null) : synthesise(sentence).catch(() => null);
      const [first, ...rest] = sentencesOf(text);
      let coming = make(first);
      for (const next of [...rest, undefined]) {
        const sound = await Promise.race([coming, isCut, late(patienceMs)]);
        if (mine !== cuts) return true;
        if (sound === null || sound === "cut") return false;
        coming = make(next);
        const heard = await player.play(sound);
        if (mine !== cuts) return true;
        if (!heard) return false;
      }
      return true;
    },
    cancel() {
      cuts += 1;
      cut();
      player.stop();
    },
  };
}

function late(ms: number): Promise<null> {
  return new Promise((resolve) => {
    setTimeout(() => resolve(null), ms);
  });
}

function sentencesOf(text: string): string[] {
  return text.split(/(?<=[.?!])\s+/).filter((sentence) => sentence !== "");
}
