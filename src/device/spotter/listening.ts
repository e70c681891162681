import { microphoneProblem, PLAIN_SOUND } from "../ears/offline/microphone.ts";
import type { SpotterModel } from "./base.ts";
import { startSpotterEngine } from "./engine-browser.ts";
import { loadRecognizer, openedBy, type Recognizer } from "./library.ts";
import type { Spotter, SpotterEvent } from "./spotter.ts";
import { BINS } from "./words.ts";

const NOT_LOADED = "The key words could not be loaded: reload the page while online, or type.";
const LOST = "The microphone was lost: plug it in and start listening again, or type.";
const SILENT =
  "No sound comes from the microphone, it may be muted: switch it on and start listening again, or type.";

/** Each window begins this share of a second after the one before: five a second. */
const OVERLAP = 0.8;
/** How often it is looked whether sound still comes, and after how many looks without any it is said: two seconds. */
const LOOK_MS = 500;
const SILENT_LOOKS = 4;

/** One stretch of listening: what has to be let go at its end. */
interface Session {
  readonly on: (event: SpotterEvent) => void;
  /** Null until its microphone is open. */
  recognizer: Recognizer | null;
  looking: ReturnType<typeof setInterval> | undefined;
  /** Windows that came, silent ones excepted: the library skips digital silence. */
  windows: number;
}

/**
 * The spotter on the page's thread: the library's own microphone, spectrum and model.
 * @param load gives the model each time that listening starts; where it rejects, that is the event "problem"
 */
export function createSpotter(load: () => Promise<SpotterModel>): Spotter {
  let session: Session | null = null;

  const close = async (which: Session): Promise<void> => {
    if (session === which) session = null;
    clearInterval(which.looking);
    const { recognizer } = which;
    which.recognizer = null;
    if (recognizer) await release(recognizer);
  };

  const fail = async (which: Session, message: string): Promise<void> => {
    if (session !== which) return;
    await close(which);
    which.on({ kind: "problem", message });
  };

  /** Says when the microphone goes away, and when it gives nothing. */
  const attend = (mine: Session, recognizer: Recognizer): void => {
    const { stream, context } = openedBy(recognizer);
    for (const track of stream?.getTracks() ?? [])
      track.addEventListener("ended", () => void fail(mine, LOST), { once: true });
    // Interrupted, as by a call: the last sound would be looked at over and over.
    context?.addEventListener("statechange", () => {
      if (context.state !== "running") void fail(mine, SILENT);
    });
    let [seen, silent] = [mine.windows, 0];
    mine.looking = setInterval(() => {
      // A page that nobody sees is called once a second, and so is the library: that says nothing about sound.
      silent = mine.windows !== seen || document.hidden ? 0 : silent + 1;
      seen = mine.windows;
      if (silent >= SILENT_LOOKS) void fail(mine, SILENT);
    }, LOOK_MS);
  };

  const hear = (mine: Session, scores: Float32Array, spectrogram: Float32Array): void => {
    mine.windows++;
    // The library fills up what it has not heard yet with 0 dB, the loudest there is.
    if (session !== mine || isFilledUp(spectrogram)) return;
    mine.on({ kind: "window", scores, spectrogram, at: performance.now() });
  };

  return {
    async listen(on) {
      if (session) return;
      const mine: Session = { on, recognizer: null, looking: undefined, windows: 0 };
      session = mine;
      const loaded = await loadModel(load).catch(() => null);
      if (!loaded) return fail(mine, NOT_LOADED);
      // Stopped meanwhile, here and below: what came after that is let go.
      if (session !== mine) return release(loaded);
      const problem = await open(loaded, (scores, spectrogram) => hear(mine, scores, spectrogram));
      if (session !== mine) return release(loaded);
      mine.recognizer = loaded;
      if (problem !== null) return fail(mine, problem);
      attend(mine, loaded);
      on({ kind: "listening" });
    },

    async stop() {
      const ending = session;
      if (!ending) return;
      await close(ending);
      ending.on({ kind: "stopped" });
    },
  };
}

async function loadModel(load: () => Promise<SpotterModel>): Promise<Recognizer> {
  const [model] = await Promise.all([load(), startSpotterEngine()]);
  return loadRecognizer(model);
}

/** Opens the microphone; resolves to what kept it from opening, in one sentence. */
async function open(
  recognizer: Recognizer,
  hear: (scores: Float32Array, spectrogram: Float32Array) => void,
): Promise<string | null> {
  try {
    await recognizer.listen(
      async ({ scores, spectrogram }) => {
        if (scores instanceof Float32Array && spectrogram?.data instanceof Float32Array)
          hear(scores, spectrogram.data);
      },
      {
        overlapFactor: OVERLAP,
        includeSpectrogram: true,
        invokeCallbackOnNoiseAndUnknown: true,
        probabilityThreshold: 0,
        audioTrackConstraints: PLAIN_SOUND,
      },
    );
    // Made without a tap, it may wait for one, and give silence until then.
    void openedBy(recognizer).context?.resume();
    return null;
  } catch (error) {
    return microphoneProblem(error);
  }
}

/** Lets everything go, however far the library came. */
async function release(recognizer: Recognizer): Promise<void> {
  const { stream, context } = openedBy(recognizer);
  // The library closes the context itself, but only where all of it had been opened.
  if (recognizer.isListening()) await recognizer.stopListening();
  else if (context && context.state !== "closed") await context.close();
  for (const track of stream?.getTracks() ?? []) track.stop();
  recognizer.model.dispose();
}

function isFilledUp(spectrogram: Float32Array): boolean {
  return spectrogram.subarray(0, BINS).every((level) => level === 0);
}
