import readingUrl from "../../../grammars/en/reading.json?url&no-inline";
import { elapsedMs, every } from "../../device/clock.ts";
import { readBytes, readJsonFile } from "../../device/files.ts";
import { fetchBaseModel } from "../../device/spotter/assets-browser.ts";
import { startTeaching } from "../../device/spotter/teaching.ts";
import { once } from "../once.ts";
import type { World } from "../world.ts";
import { People, type PeopleWorld } from "./people.ts";
import { ReadingPlan } from "./plan.ts";
import { Teaching } from "./teaching.ts";

type OwnVoiceWorld = Pick<World, "notebook" | "speaker" | "otherEars" | "newId" | "now"> &
  Pick<PeopleWorld, "settings" | "changeSettings" | "guard"> & {
    readonly reason: (error: unknown) => string;
  };

/** The people of this device, and the teaching of a voice. */
export interface OwnVoice {
  readonly people: People;
  readonly teaching: Teaching;
  readonly newId: () => string;
}

export function createOwnVoice(world: OwnVoiceWorld): OwnVoice {
  const { notebook, speaker, otherEars, now, newId, reason } = world;
  const model = once(fetchBaseModel);
  const people = new People({
    ...world,
    voices: notebook.voices,
    base: async () => (await model()).hash,
    readBytes,
  });
  const teaching = new Teaching({
    spotter: async () => {
      // With the library in it, it is of the ear's files.
      const { createSpotter } = await import("../../device/spotter/listening.ts");
      return createSpotter(model);
    },
    plan: async () => ReadingPlan.parse(await readJsonFile(readingUrl)),
    speak: (text, earcon) => speaker.speak(text, earcon),
    hush: () => speaker.cancel(),
    train: async (takes, heldBack, progress) =>
      startTeaching({ base: await model(), takes, heldBack, options: {} }, progress),
    keep: (profile) => people.keep(profile),
    tellOthers: () => otherEars.tell(),
    now,
    elapsedMs,
    every,
    chance: Math.random,
    reason,
  });
  otherEars.onTold(() => teaching.giveWay());
  return { people, teaching, newId };
}
