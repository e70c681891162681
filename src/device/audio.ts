/** The page's own sound: one context for the packaged voice and the tones. */
export interface Audio {
  /** A context that runs; null where the page may make no sound (nobody has touched it yet), or cannot. */
  running(): Promise<AudioContext | null>;
}

/** How long a context may take to wake, ms: where nobody has touched the page it never does. */
const WAKING_MS = 500;

/** After the first touch it is woken so late, ms: it takes a tenth of a second, in which the touch itself was not answered. */
const TOUCHED_MS = 250;

/** Nothing is made before it is first needed, or before the first touch, which is what lets some browsers make sound. */
export function createAudio(
  open: () => AudioContext = () => new AudioContext({ latencyHint: "interactive" }),
  touched: Pick<EventTarget, "addEventListener"> = globalThis,
): Audio {
  let context: AudioContext | null = null;
  const wake = async (): Promise<AudioContext | null> => {
    try {
      context ??= open();
      if (context.state !== "running") await Promise.race([context.resume(), pause(WAKING_MS)]);
      return isRunning(context) ? context : null;
    } catch {
      return null;
    }
  };
  for (const kind of ["pointerdown", "keydown"])
    touched.addEventListener(kind, () => void pause(TOUCHED_MS).then(wake), { once: true });
  return { running: wake };
}

/** Asked anew: the state is another after a wait. */
function isRunning({ state }: AudioContext): boolean {
  return state === "running";
}

function pause(ms: number): Promise<void> {
  return new Promise((resolve) => {
    setTimeout(resolve, ms);
  });
}
