import { fetchBaseModel } from "../../device/spotter/assets-browser.ts";
import { createSpotter } from "../../device/spotter/listening.ts";
import { FiguresPart } from "./figures-part.tsx";
import { Steering, type SteeringWorld } from "./steering.ts";

/** The key words of this device, what they do, and what is shown of it: nothing of that comes with the page. */
export function createSteering(world: Omit<SteeringWorld, "spotter">): Steering {
  return new Steering({ ...world, spotter: createSpotter(fetchBaseModel) }, FiguresPart);
}
