import { readFile } from "node:fs/promises";
import { loadBaseModel } from "../../../src/device/spotter/assets-node.ts";
import type { BaseModel, SpotterModel } from "../../../src/device/spotter/base.ts";
import { rightOf } from "../../../src/device/spotter/gain.ts";
import { readBase } from "../../../src/device/spotter/read-base.ts";
import type { Take } from "../../../src/device/spotter/take.ts";
import { applyTaught } from "../../../src/device/spotter/taught.ts";
import { teachSpotter } from "../../../src/device/spotter/teach.ts";
import { digit, FIGURES, type Speaker } from "./digits.ts";
import { placed, windowOf, windowsIn } from "./windows.ts";

const MODEL = new URL("../../../grammars/en/spotter/", import.meta.url);

/** A base model that has never heard this speaker: the shipped one is that of `yweweler`. */
export async function baseWithout(speaker: Speaker): Promise<BaseModel> {
  if (speaker === "yweweler") return loadBaseModel();
  const [model, metadata, weights] = await Promise.all([
    readFile(new URL("model.json", MODEL), "utf8"),
    readFile(new URL("metadata.json", MODEL), "utf8"),
    readFile(new URL(`left-out/${speaker}.bin`, import.meta.url)),
  ]);
  return readBase({ model, metadata, weights: new Uint8Array(weights) });
}

/** Of 50 takes of a digit, recorded at several sittings, these are learned from, as many as are wanted; of the others some are held back. */
const LEARNED = [0, 24, 12, 36, 6, 42, 18, 30];
const HELD_BACK = [3, 9, 15, 21, 27, 33, 39, 45, 1, 8, 14, 22, 28, 35, 41, 48];

export async function takesOf(
  speaker: Speaker,
  which: "learned" | "held back",
  count: number,
  decibels: number | null,
): Promise<Take[]> {
  const takes: Take[] = [];
  for (const [figure, label] of FIGURES.entries()) {
    for (const take of (which === "learned" ? LEARNED : HELD_BACK).slice(0, count)) {
      const how = { decibels, seed: figure * 100 + take + 1, talk: [] };
      takes.push({ label, spectrogram: await windowOf(digit(speaker, figure, take), how) });
    }
  }
  return takes;
}

/** A few seconds of the quiet room, as the guided reading takes them. */
export async function roomTakes(count: number): Promise<Take[]> {
  const silence = { rate: 16_000, samples: new Float32Array(16_000 * count) };
  const room = placed(silence, { room: 0.5, decibels: null, seed: 77, talk: [] });
  const windows = await windowsIn(room, 43);
  return windows.slice(0, count).map((spectrogram) => ({ label: "_background_noise_", spectrogram }));
}

export interface FewShot {
  readonly takes: number;
  /** Shares of the held-back takes that were right, in quiet and at 10 dB. */
  readonly quiet: number;
  readonly noisy: number;
  /** Of the teaching, seconds. */
  readonly wall: number;
  readonly processor: number;
}

/** @param counts takes a word; 0 is before teaching */
export async function fewShot(
  speaker: Speaker,
  counts: readonly number[],
  heldBack: number,
): Promise<FewShot[]> {
  const base = await baseWithout(speaker);
  const quiet = await takesOf(speaker, "held back", heldBack, null);
  const noisy = await takesOf(speaker, "held back", heldBack, 10);
  const out: FewShot[] = [];
  for (const takes of counts) {
    const learned = [...(await takesOf(speaker, "learned", takes, null)), ...(await roomTakes(8))];
    const [begun, spent] = [performance.now(), process.cpuUsage()];
    const model = takes === 0 ? base : await taughtWith(base, learned);
    const { user, system } = process.cpuUsage(spent);
    out.push({
      takes,
      wall: (performance.now() - begun) / 1000,
      processor: (user + system) / 1e6,
      quiet: (await rightOf(model, quiet)) / quiet.length,
      noisy: (await rightOf(model, noisy)) / noisy.length,
    });
  }
  return out;
}

async function taughtWith(base: BaseModel, takes: readonly Take[]): Promise<SpotterModel> {
  const applied = applyTaught(base, await teachSpotter(base, takes));
  if (!applied.ok) throw new Error(applied.refusal.kind);
  return applied.model;
}
