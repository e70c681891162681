import type { Address } from "../../device/address.ts";
import { type Place, placeOf } from "../place.ts";
import type { HandingOver } from "./handing-over.ts";
import type { Notices } from "./notices.ts";
import type { Opened } from "./opened.ts";
import type { Running } from "./running.ts";

/** What is readied and closed between screens. */
export interface EntranceWorld {
  readonly running: Pick<Running, "look" | "open" | "close" | "isHolding">;
  readonly opened: Pick<
    Opened,
    "closeAfterwards" | "closeRecord" | "lookThrough" | "openOffice" | "openRecord"
  >;
  readonly handingOver: Pick<HandingOver, "exporting">;
  readonly notices: Notices;
  readonly address: Address;
  /** Whether the first-run page was gone through. */
  readonly isWelcomed: () => boolean;
}

/** What stands between two screens: the last one's things are closed, the next one's are readied. */
export class Entrance {
  readonly #world: EntranceWorld;
  /** Whether somebody came to the office past the first-run page: all else opens once that was gone through. */
  #isVisitor = false;

  constructor(world: EntranceWorld) {
    this.#world = world;
  }

  /** The place to begin with in place of the address's; null where that is right. Rejects where the notebook does. */
  async first(): Promise<Place | null> {
    const { running, address, isWelcomed } = this.#world;
    // The office needs neither a licence nor a microphone; it has a caution of its own.
    this.#isVisitor = !isWelcomed() && placeOf(address.read()).kind === "office";
    // A device that died at the boiler comes up there again.
    if ((await running.look()) && address.read() === "") return { kind: "boiler" };
    return isWelcomed() || this.#isVisitor ? null : { kind: "welcome" };
  }

  /**
   * Opens the running visit for the boiler, closes it for every other place; where that fails the start is shown. A visit with
   * what is not saved is not left.
   */
  async enter(wanted: Place): Promise<Place> {
    const { running, opened, handingOver, notices, isWelcomed } = this.#world;
    const isBarred = this.#isVisitor && !isWelcomed() && wanted.kind !== "office";
    const place: Place = isBarred ? { kind: "welcome" } : wanted;
    if (place.kind !== "boiler" && running.isHolding.value) {
      notices.problem([HOLDING]);
      return { kind: "boiler" };
    }
    if (notices.shown.value?.sentences[0] === HOLDING) notices.clear();
    let shown: Place = { kind: "start" };
    handingOver.exporting.value = null;
    notices.turnPage();
    await notices.guard(async () => {
      await opened.closeAfterwards();
      if (place.kind === "boiler") {
        if (!(await running.open())) return;
      } else await running.close();
      opened.closeRecord();
      if (place.kind === "afterwards") await opened.lookThrough(place.visitId);
      if (place.kind === "office") await opened.openOffice(place.part);
      if (place.kind === "record") await opened.openRecord(place.visitId);
      shown = place;
    });
    return shown;
  }
}

const HOLDING =
  "Something of this visit is not saved, and would be lost. Store it, save the log as a file, or drop it; then leave.";
