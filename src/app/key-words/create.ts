import { fetchBaseModel } from "../../device/spotter/assets-browser.ts";
import { createSpotter } from "../../device/spotter/listening.ts";
import { Steering, type SteeringWorld } from "./steering.ts";
import { SteeringPart } from "./steering-part.tsx";

/** The key words of this device, what they do, and what is shown of it: nothing of that comes with the page. */
export function createSteering(world: Omit<SteeringWorld, "spotter">): Steering {
  return new Steering({ ...world, spotter: createSpotter(fetchBaseModel) }, SteeringPart);
}
