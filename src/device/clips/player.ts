import type { Clip } from "./clip.ts";

/** Plays kept sound, one clip at a time. */
export interface ClipPlayer {
  /** Resolves when the clip is over or was stopped; rejects where it cannot be played. A clip that plays is stopped. */
  play(clip: Clip): Promise<void>;
  stop(): void;
}

/** Through an <audio> element; the address of a clip is let go as soon as it is over. */
export function createClipPlayer(): ClipPlayer {
  let stop = (): void => undefined;
  return {
    play(clip) {
      stop();
      return new Promise((resolve, reject) => {
        const url = URL.createObjectURL(new Blob([clip.data], { type: clip.type }));
        const audio = new Audio(url);
        let open = true;
        const end = (settle: () => void): void => {
          if (!open) return;
          open = false;
          audio.pause();
          audio.removeAttribute("src");
          URL.revokeObjectURL(url);
          settle();
        };
        stop = () => end(resolve);
        audio.addEventListener("ended", stop);
        const failed = () => end(() => reject(new Error("this browser cannot play it")));
        audio.addEventListener("error", failed);
        audio.play().catch(failed);
      });
    },
    stop: () => stop(),
  };
}
