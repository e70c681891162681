import type { Firing } from "../../../src/measure/firing.ts";
import { type Chance, chance } from "./chance.ts";
import { type Screws, screwsAsFound, settledCo2, tenth, trueCo, turnScrew, type ValveSpec } from "./valve.ts";

/** What an analyser shows: CO2 in vol-% to 0.1, CO in whole ppm. */
export interface Shown {
  readonly co2: number;
  readonly co: number;
}

/** A boiler in test mode with an analyser in its flue, in time (seconds). */
export class Boiler {
  readonly spec: ValveSpec;
  firing: Firing = "high";
  #screws: Screws;
  /** CO2 in the flue when something last changed, and when that was. */
  #was: number;
  #since = Number.NEGATIVE_INFINITY;
  readonly #noise: Chance;

  constructor(spec: ValveSpec, seed: number) {
    this.spec = spec;
    this.#screws = screwsAsFound(spec);
    this.#was = this.settled.high;
    this.#noise = chance(seed + 1_000_003);
  }

  /** CO2 of both firings once all has settled. */
  get settled(): Readonly<Record<Firing, number>> {
    return settledCo2(this.spec, this.#screws);
  }

  /** CO2 in the flue, which follows with a lag. */
  at(seconds: number): number {
    const to = this.settled[this.firing];
    return to + (this.#was - to) * Math.exp(-(seconds - this.#since) / this.spec.lag);
  }

  goTo(firing: Firing, seconds: number): void {
    this.#change(seconds, () => {
      this.firing = firing;
    });
  }

  /** Signed turns as a hand makes them, clockwise positive. */
  turn(screw: Firing, clockwise: number, seconds: number): void {
    const rises = this.spec.sheet.adjusters[screw].co2Rises === "clockwise" ? 1 : -1;
    this.#change(seconds, () => {
      this.#screws = turnScrew(this.spec, this.#screws, screw, rises * clockwise);
    });
  }

  read(seconds: number): Shown {
    const co2 = this.at(seconds);
    const co = trueCo(this.spec, co2) * (1 + 0.03 * this.#noise.normal());
    return { co2: tenth(co2 + this.spec.noise * this.#noise.normal()), co: Math.max(0, Math.round(co)) };
  }

  #change(seconds: number, change: () => void): void {
    this.#was = this.at(seconds);
    this.#since = seconds;
    change();
  }
}
