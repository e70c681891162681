import { fetchBaseModel } from "../../device/spotter/assets-browser.ts";
import { createSpotter } from "../../device/spotter/listening.ts";
import { Steering, type SteeringWorld } from "./steering.ts";

/** The key words of this device, and what they do. */
export function createSteering(world: Omit<SteeringWorld, "spotter">): Steering {
  return new Steering({ ...world, spotter: createSpotter(fetchBaseModel) });
}
