/** A headset's play/pause button (and the keys of a keyboard and a lock screen that do the same) as a switch. */
export interface MediaButton {
  /** From now on the button is ours. */
  take(): void;
  /** Gives the button back. */
  release(): void;
  /** Tells the platform what the button has switched, so that it knows which of the two it is to send next. */
  show(on: boolean): void;
}

/** What is used of a page. */
export interface ButtonScope {
  readonly session: Pick<MediaSession, "setActionHandler" | "playbackState" | "metadata"> | undefined;
  /** A looped element that plays this address. */
  readonly play: (address: string) => Pick<HTMLMediaElement, "play" | "pause">;
  readonly touched: Pick<EventTarget, "addEventListener" | "removeEventListener">;
}

/** "stop" is what a headset sends when its button is held. */
const ACTIONS = ["play", "pause", "stop"] as const;

/**
 * Platforms send the button to whatever page plays media, and to none that plays nothing; speech synthesis and an
 * AudioContext do not count. So while a visit runs an element plays silence, looped: 10 s, since browsers give no
 * button to short sounds (Chromium: 5 s and less). Where the page may not play yet, it starts with the next touch.
 * Where the platform has no such buttons, nothing happens.
 */
export function createMediaButton(press: () => void, scope: ButtonScope = pageScope()): MediaButton {
  const { session, touched } = scope;
  let silence: ReturnType<ButtonScope["play"]> | null = null;
  let taken = false;

  const playing = async (): Promise<void> => {
    touched.removeEventListener("pointerdown", playing);
    if (!taken || !silence) return;
    try {
      await silence.play();
    } catch {
      // A pause while it starts also ends here: then it is not to play.
      if (taken) touched.addEventListener("pointerdown", playing);
    }
  };

  return {
    take() {
      if (!session || taken) return;
      taken = true;
      silence ??= scope.play(URL.createObjectURL(new Blob([silentWav()], { type: "audio/wav" })));
      // Whatever the platform believes, each press switches.
      for (const action of ACTIONS) session.setActionHandler(action, press);
      void playing();
    },
    release() {
      if (!session || !taken) return;
      taken = false;
      silence?.pause();
      for (const action of ACTIONS) session.setActionHandler(action, null);
      session.playbackState = "none";
    },
    show(on) {
      if (session && taken) session.playbackState = on ? "playing" : "paused";
    },
  };
}

function pageScope(): ButtonScope {
  return {
    session: globalThis.navigator?.mediaSession,
    play: (address) => {
      const element = new Audio(address);
      element.loop = true;
      return element;
    },
    touched: globalThis,
  };
}

const SILENT_SECONDS = 10;
const SILENT_RATE = 8000;

/** A WAV file of silence: RIFF, 8 bit (whose zero is 128), mono. */
export function silentWav(): Uint8Array<ArrayBuffer> {
  const size = SILENT_SECONDS * SILENT_RATE;
  const wav = new Uint8Array(44 + size).fill(128, 44);
  const view = new DataView(wav.buffer);
  const mark = (at: number, letters: string) => wav.set(new TextEncoder().encode(letters), at);
  mark(0, "RIFF");
  view.setUint32(4, 36 + size, true);
  mark(8, "WAVEfmt ");
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, SILENT_RATE, true);
  view.setUint32(28, SILENT_RATE, true);
  view.setUint16(32, 1, true);
  view.setUint16(34, 8, true);
  mark(36, "data");
  view.setUint32(40, size, true);
  return wav;
}
