import { signal } from "@preact/signals";
import type { Address } from "../device/address.ts";
import { hashOf, type Place, placeOf } from "./place.ts";

/** Which screen is open, in step with the browser's address and its back button. */
export class Places {
  readonly place = signal<Place>({ kind: "start" });
  readonly #address: Address;
  readonly #enter: (place: Place) => Promise<Place>;
  /** Counts the ways taken, so that a slow one knows that another was taken since. */
  #ways = 0;

  /** @param enter readies what a place needs, and resolves to the place that is really shown; must not reject */
  constructor(address: Address, enter: (place: Place) => Promise<Place>) {
    this.#address = address;
    this.#enter = enter;
    address.onChange((hash) => void this.#take(placeOf(hash)));
  }

  /** Opens what the address names, or `instead`. */
  async open(instead: Place | null): Promise<void> {
    await this.#take(instead ?? placeOf(this.#address.read()));
  }

  /** Goes to a place; the one before is a step back. */
  async goTo(place: Place): Promise<void> {
    if (hashOf(place) !== this.#address.read()) this.#address.open(hashOf(place));
    await this.#take(place);
  }

  async #take(place: Place): Promise<void> {
    this.#ways += 1;
    const way = this.#ways;
    const shown = await this.#enter(place);
    if (way !== this.#ways) return;
    if (hashOf(shown) !== this.#address.read()) this.#address.replace(hashOf(shown));
    this.place.value = shown;
  }
}
