import { expect } from "vitest";
import type { Settings } from "../../src/app/settings.ts";
import type { App } from "./app.ts";

/** Waits until these settings lie on the disk: what is chosen is stored a moment after. */
export async function keptSettings(app: App, settings: Partial<Settings>): Promise<void> {
  await expect
    .poll(() => app.table("settings"))
    .toContainEqual(expect.objectContaining({ value: expect.objectContaining(settings) }));
}
