import { effect, type ReadonlySignal } from "@preact/signals";
import readingUrl from "../../../grammars/en/reading.json?url&no-inline";
import { decodedClip } from "../../device/clips/decode.ts";
import { elapsedMs, every } from "../../device/clock.ts";
import { readBytes, readJsonFile } from "../../device/files.ts";
import { fetchBaseModel } from "../../device/spotter/assets-browser.ts";
import { startTeaching } from "../../device/spotter/teaching.ts";
import { once } from "../once.ts";
import type { World } from "../world.ts";
import { Learning } from "./learning.ts";
import { People, type PeopleWorld } from "./people.ts";
import { ReadingPlan } from "./plan.ts";
import { Teaching } from "./teaching.ts";

type OwnVoiceWorld = Pick<World, "notebook" | "speaker" | "otherEars" | "newId" | "now"> &
  Pick<PeopleWorld, "settings" | "changeSettings" | "guard"> & {
    /** Whether the ear of a visit listens, or is about to. */
    readonly listens: ReadonlySignal<boolean>;
    readonly reason: (error: unknown) => string;
  };

/** The people of this device, the teaching of a voice, and what is learned of phrases. */
export interface OwnVoice {
  readonly people: People;
  readonly teaching: Teaching;
  readonly learning: Learning;
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
  const learning = new Learning({
    notebook,
    decode: decodedClip,
    language: async () => (await import("virtual:language/ear")).default,
    adapt: async (request, progress) => {
      const { startAdapting } = await import("../../device/ears/offline/adapting.ts");
      return startAdapting(request, progress);
    },
    listens: () => world.listens.value,
    changed: () => people.load(),
    now,
    reason,
  });
  effect(() => {
    if (world.listens.value) learning.giveWay();
  });
  otherEars.onTold(() => {
    teaching.giveWay();
    learning.giveWay();
  });
  return { people, teaching, learning, newId };
}
