import type { EarLanguage } from "../../../meaning/network.ts";
import { ownScript } from "../../own-script.ts";
import type { Ear, EarEvent } from "../ear.ts";
import type { LearnedPhones } from "./adaptation.ts";
import type { FromWorker, ToWorker } from "./messages.ts";
import { type Microphone, microphoneProblem, openMicrophone } from "./microphone.ts";
import workerUrl from "./worker.ts?worker&url";

const NOT_LOADED = "The offline ear could not be loaded: reload the page while online, or type.";

const STOPPED = "The offline ear stopped by itself: start listening again, or type.";
const LOST = "The microphone was lost: plug it in and start listening again, or type.";

/** One stretch of listening: what has to be let go at its end. */
interface Session {
  /** Null until its files are there. */
  worker: Worker | null;
  /** Tells whoever fetches them that they are not wanted any more. */
  readonly given: AbortController;
  readonly on: (event: EarEvent) => void;
  microphone: Microphone | null;
  /** Ends the wait for the engine: it came up, or never will. */
  loaded: (up: boolean) => void;
}

/**
 * The ear that needs no network: microphone -> voice detector -> phone model -> grammar search, all of it on the device.
 * @param fetched resolves once its files are on the device, or cannot be kept there: then it fetches them itself
 * @param phones what was learned of whoever speaks; where it cannot be read the ear hears as it is shipped
 */
export function createOfflineEar(
  language: EarLanguage,
  fetched: (given: AbortSignal) => Promise<void>,
  phones: () => Promise<LearnedPhones | null> = async () => null,
): Ear {
  let session: Session | null = null;
  let sounding = false;

  const close = async (which: Session): Promise<void> => {
    if (session === which) session = null;
    which.loaded(false);
    which.given.abort();
    which.worker?.terminate();
    await which.microphone?.close();
  };

  const fail = async (which: Session, message: string): Promise<void> => {
    if (session !== which) return;
    await close(which);
    which.on({ kind: "problem", message });
  };

  return {
    engine: "offline",

    async listen(on) {
      if (session) return;
      const mine: Session = {
        worker: null,
        given: new AbortController(),
        on,
        microphone: null,
        loaded: () => undefined,
      };
      session = mine;
      const sound = new MessageChannel();
      // Whatever keeps the engine from starting, the microphone is let go.
      const ready = start(mine, sound.port1).catch(() => false);

      // Asked for at once, while the page still knows that a person pressed a button.
      const opening = openMicrophone(sound.port2, () => fail(mine, LOST));
      const opened = await opening.then(
        (microphone) => ({ microphone }),
        (error: unknown) => ({ error }),
      );
      if ("error" in opened) return fail(mine, microphoneProblem(opened.error));
      mine.microphone = opened.microphone;
      if (session !== mine) return opened.microphone.close();

      const loaded = await ready;
      if (session !== mine) return;
      if (!loaded) return fail(mine, NOT_LOADED);
      on({ kind: "listening" });
    },

    voiceSounds(next) {
      sounding = next;
      if (session?.worker) tell(session.worker, { kind: "voice", sounding });
    },

    async stop() {
      const ending = session;
      if (!ending) return;
      await close(ending);
      ending.on({ kind: "stopped" });
    },
  };

  /** Starts the engine once its files are there; resolves to whether it came up. Sound that comes before is dropped. */
  async function start(mine: Session, sound: MessagePort): Promise<boolean> {
    sound.onmessage = () => undefined;
    const learned = phones().catch(() => null);
    await fetched(mine.given.signal);
    const own = await learned;
    if (session !== mine) return false;
    const worker = new Worker(ownScript(workerUrl), { type: "module" });
    mine.worker = worker;
    const ready = attend(mine, worker);
    sound.onmessage = null;
    tell(worker, { kind: "start", language, sound, phones: own }, [sound]);
    tell(worker, { kind: "voice", sounding });
    return ready;
  }

  /** Passes the worker's messages on; resolves to whether the engine came up. */
  function attend(mine: Session, worker: Worker): Promise<boolean> {
    return new Promise((resolve) => {
      let up = false;
      mine.loaded = resolve;
      const failed = (): void => {
        resolve(false);
        if (up) void fail(mine, STOPPED);
      };
      worker.addEventListener("error", failed);
      worker.addEventListener("message", ({ data }: MessageEvent<FromWorker>) => {
        if (session !== mine) return;
        switch (data.kind) {
          case "ready":
            up = true;
            resolve(true);
            return;
          case "failed":
            failed();
            return;
          case "loading":
          case "level":
          case "utterance":
            mine.on(data);
        }
      });
    });
  }
}

function tell(worker: Worker, message: ToWorker, transfer: Transferable[] = []): void {
  worker.postMessage(message, transfer);
}
