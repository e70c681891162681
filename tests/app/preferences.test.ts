import { expect, test } from "vitest";
import { Preferences } from "../../src/app/preferences.ts";
import { FIRST_SETTINGS } from "../../src/app/settings.ts";
import type { Notebook } from "../../src/device/notebook/notebook.ts";

/** A notebook that takes a while for each thing, and can be made to fail. */
function slow() {
  const kept = new Map<string, unknown>();
  const world = { fails: false };
  const later = () => new Promise<void>((resolve) => setImmediate(resolve));
  const notebook: Pick<Notebook, "setting" | "keepSetting"> = {
    setting: async (key) => {
      await later();
      return kept.get(key);
    },
    keepSetting: async (key, value) => {
      await later();
      if (world.fails) throw new Error("disk full");
      kept.set(key, value);
    },
  };
  return { world, preferences: new Preferences(notebook as Notebook) };
}

test("changes that come at once are all kept", async () => {
  const { preferences } = slow();
  await Promise.all([
    preferences.change({ technician: "Ada" }),
    preferences.change({ units: "si" }),
    preferences.change({ talk: "full" }),
  ]);
  expect(preferences.chosen.value).toEqual({
    ...FIRST_SETTINGS,
    technician: "Ada",
    units: "si",
    talk: "full",
  });
});

test("one that fails rejects, and holds up none after it", async () => {
  const { preferences, world } = slow();
  world.fails = true;
  await expect(preferences.change({ units: "si" })).rejects.toThrow("disk full");
  world.fails = false;
  await preferences.change({ technician: "Ada" });
  expect(preferences.chosen.value).toEqual({ ...FIRST_SETTINGS, technician: "Ada" });
});
