import { signal } from "@preact/signals";
import type { Spotter, SpotterWindow } from "../../device/spotter/spotter.ts";

/** What the screen shows of the key words. */
export type KeyWordsState =
  | { readonly kind: "off" }
  | { readonly kind: "loading" }
  | { readonly kind: "listening" }
  /** One sentence; the recogniser goes on. */
  | { readonly kind: "problem"; readonly message: string };

/** Runs the spotter beside the ear: on and off as often as wanted, one after the other, and what it tells becomes a state. */
export class Spotting {
  readonly state = signal<KeyWordsState>({ kind: "off" });
  readonly #spotter: Spotter;
  readonly #on: (window: SpotterWindow) => void;
  #wanted = false;
  /** Counts starts, so that the end of an earlier one is not taken for the end of this. */
  #round = 0;
  /** Starts and stops, one after the other. Never rejects. */
  #work: Promise<void> = Promise.resolve();

  constructor(spotter: Spotter, on: (window: SpotterWindow) => void) {
    this.#spotter = spotter;
    this.#on = on;
  }

  start(): void {
    if (this.#wanted) return;
    this.#wanted = true;
    this.#round += 1;
    this.state.value = { kind: "loading" };
    this.#next(async () => {
      if (this.#wanted) await this.#listen();
    });
  }

  stop(): void {
    if (!this.#wanted) return;
    this.#wanted = false;
    this.state.value = { kind: "off" };
    // At once: it may be starting.
    void this.#spotter.stop().catch(() => undefined);
    this.#next(() => this.#spotter.stop());
  }

  #next(work: () => Promise<void>): void {
    this.#work = this.#work.then(work).catch((error: unknown) => this.#fail(String(error)));
  }

  async #listen(): Promise<void> {
    const round = this.#round;
    await this.#spotter.listen((event) => {
      if (!this.#wanted || round !== this.#round) return;
      switch (event.kind) {
        case "listening":
          this.state.value = { kind: "listening" };
          return;
        case "window":
          this.#on(event);
          return;
        case "stopped":
          this.#wanted = false;
          this.state.value = { kind: "off" };
          return;
        case "problem":
          this.#fail(event.message);
          return;
      }
    });
  }

  #fail(message: string): void {
    this.#wanted = false;
    this.state.value = { kind: "problem", message };
  }
}
