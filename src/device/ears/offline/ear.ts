import type { EarLanguage } from "../../../meaning/network.ts";
import type { Ear, EarEvent } from "../ear.ts";
import type { FromWorker, ToWorker } from "./messages.ts";
import { type Microphone, microphoneProblem, openMicrophone } from "./microphone.ts";

const NOT_LOADED = "The offline ear could not be loaded: reload the page while online, or type.";

const STOPPED = "The offline ear stopped by itself: start listening again, or type.";
const LOST = "The microphone was lost: plug it in and start listening again, or type.";

/** One stretch of listening: what has to be let go at its end. */
interface Session {
  readonly worker: Worker;
  readonly on: (event: EarEvent) => void;
  microphone: Microphone | null;
  /** Ends the wait for the engine: it came up, or never will. */
  loaded: (up: boolean) => void;
}

/** The ear that needs no network: microphone -> voice detector -> phone model -> grammar search, all of it on the device. */
export function createOfflineEar(language: EarLanguage): Ear {
  let session: Session | null = null;
  let sounding = false;

  const close = async (which: Session): Promise<void> => {
    if (session === which) session = null;
    which.loaded(false);
    which.worker.terminate();
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
      const worker = new Worker(new URL("./worker.ts", import.meta.url), { type: "module" });
      const mine: Session = { worker, on, microphone: null, loaded: () => undefined };
      session = mine;
      const sound = new MessageChannel();
      const ready = attend(mine);
      tell(worker, { kind: "start", language, sound: sound.port1 }, [sound.port1]);
      tell(worker, { kind: "voice", sounding });

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
      if (session) tell(session.worker, { kind: "voice", sounding });
    },

    async stop() {
      const ending = session;
      if (!ending) return;
      await close(ending);
      ending.on({ kind: "stopped" });
    },
  };

  /** Passes the worker's messages on; resolves to whether the engine came up. */
  function attend(mine: Session): Promise<boolean> {
    return new Promise((resolve) => {
      let up = false;
      mine.loaded = resolve;
      const failed = (): void => {
        resolve(false);
        if (up) void fail(mine, STOPPED);
      };
      mine.worker.addEventListener("error", failed);
      mine.worker.addEventListener("message", ({ data }: MessageEvent<FromWorker>) => {
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
