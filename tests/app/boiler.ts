import { contextOf } from "../../src/answer/context.ts";
import type { Effect } from "../../src/answer/effect.ts";
import { type Talkativeness, talkAfter } from "../../src/answer/talk.ts";
import { standing, takeAmendment, takeTurn } from "../../src/answer/turn.ts";
import { Session } from "../../src/app/boiler/session.ts";
import { type StripLine, warningStrip } from "../../src/app/boiler/warning-strip.ts";
import type { Sheet } from "../../src/visit/sheet.ts";
import type { Visit } from "../../src/visit/visit.ts";
import { sheet } from "../support/sheets.ts";
import { parser } from "../support/talk.ts";
import { head, time, typed } from "../support/visits.ts";
import { ALONE } from "./build.ts";

/** A running visit with the real parser and judge, and a clock that stands where the test puts it. */
export class Boiler {
  readonly said: string[] = [];
  talk: Talkativeness = "normal";
  /** Whether the disk takes nothing. */
  full = false;
  session: Session;
  /** Where what is said goes too, and what is asked of the composer. */
  speaks: (text: string) => void = () => {};
  does: (effect: Effect) => void = () => {};
  /** What takes time between what is shown and what is said. */
  breathes: () => Promise<void> = async () => {};
  #seconds = 0;
  #ids = 0;
  #setBy = 0;
  #disk: Visit;

  constructor(change: Partial<Sheet> = {}) {
    this.#disk = { format: "burnerside-visit/1", head: head({ sheet: sheet(change) }), entries: [] };
    this.session = this.#open();
  }

  /** Says phrases at a time, in seconds from the start of the visit; the wait of the session ticks up to then. */
  async at(seconds: number, ...phrases: readonly string[]): Promise<this> {
    while (this.#seconds < seconds) {
      this.#seconds += 1;
      this.session.ready();
    }
    for (const phrase of phrases) await this.session.hear(typed(phrase));
    return this;
  }

  /** Lets the clock go on without a tick, as while a device sleeps. */
  asleep(seconds: number): this {
    this.#seconds = seconds;
    return this;
  }

  /** Sets the device's clock by so many seconds, forward positive. */
  set(seconds: number): this {
    this.#setBy += seconds;
    return this;
  }

  /** Closes the page, and opens it again when so many seconds have passed since the visit began. */
  reload(seconds: number): this {
    this.asleep(seconds);
    this.said.length = 0;
    this.session = this.#open();
    return this;
  }

  get lines(): readonly StripLine[] {
    return this.strip.lines;
  }

  get strip() {
    const { warned, state, given } = this.session;
    return warningStrip(warned.value, state.value, given.value);
  }

  /** Codes of the reply's own warnings. */
  get onPlate(): string[] {
    return this.session.given.value.reply.judgement.warnings.map(({ code }) => code);
  }

  #open(): Session {
    return new Session(this.#disk, {
      ...ALONE,
      take: (visit, phrase, now, talk, asked) =>
        takeTurn(parser, visit, phrase, now, () => `e${this.#ids++}`, talk, asked),
      amend: (visit, amendment, now, talk) =>
        takeAmendment(parser, visit, amendment, now, () => `e${this.#ids++}`, talk),
      stand: standing,
      understand: (text, before) => parser.understood(text, contextOf(before)),
      append: async (_, entries) => {
        if (this.full) throw new Error("disk full");
        this.#disk = { ...this.#disk, entries: [...this.#disk.entries, ...entries] };
      },
      now: () => time(this.#seconds + this.#setBy),
      elapsed: () => 1000 * this.#seconds,
      say: (text) => {
        this.said.push(text);
        this.speaks(text);
      },
      keepSound: () => {},
      talk: () => this.talk,
      effect: async (effect) => {
        // Settings are stored before they count.
        await new Promise<void>((resolve) => setImmediate(resolve));
        this.talk = talkAfter(this.talk, effect);
        this.does(effect);
      },
      reason: String,
      breathe: () => this.breathes(),
    });
  }
}
