import type { EarLanguage } from "../../../meaning/network.ts";
import { seeded } from "../../spotter/augment.ts";
import type { Gain } from "../../spotter/profile.ts";
import { createAcoustic } from "./acoustic.ts";
import { chainOf } from "./ctc.ts";
import { chancesOf, type Example } from "./head.ts";
import { createMel, phoneFeatures } from "./mel.ts";
import { noisy } from "./noisy.ts";
import { FEWEST_PHRASES, MOST_PHRASES, type PhoneHead } from "./own-head.ts";
import type { EarAssets } from "./recogniser.ts";
import { createSearch, type Search } from "./search.ts";
import { HEAD_TRAINING, type HeadTraining, trainHead } from "./train-head.ts";
import { judge } from "./trust.ts";
import { Weights } from "./weights.ts";

/** A phrase that the person confirmed: mono samples at 16 kHz, full scale 1, and its words. */
export interface ConfirmedClip {
  readonly sound: Float32Array;
  readonly text: string;
}

export type AdaptOutcome =
  /** Better, and kept: what was learned. */
  | { readonly kind: "better"; readonly head: PhoneHead; readonly gain: Gain; readonly phrases: number }
  /** Not better on what was held back, or not without harm. */
  | { readonly kind: "no-better"; readonly gain: Gain; readonly because: Harm }
  /** Not enough with words that the ear knows: `found` of `FEWEST_PHRASES`. */
  | { readonly kind: "too-few"; readonly found: number };

/** Why what was learned is not kept. */
export type Harm = "no-more-right" | "fewer-without-noise" | "more-wrong" | "talk-taken-for-words";

/** Every so many phrases one is held back. */
const HELD_BACK_OF = 5;
/** Speech over noise of the copies, dB: of those that are learned from, and of those held back. */
const LEARNED_NOISE = [18, 8];
const HELD_BACK_NOISE = [12, 6];
/** Where the learned head does harm, this part of the way to it is tried: less is learned, and less spoiled. */
const LESS = 0.6;
/** From here on a number is logged without a question (`src/meaning/assemble.ts`). */
const LOGGED = 0.85;

/** One that was held back, in one room, and whether it is as it was heard. */
interface Held {
  readonly hidden: Float32Array;
  readonly text: string;
  readonly plain: boolean;
}

/** How a head hears what was held back. */
export interface Heard {
  readonly right: number;
  /** Of the phrases as they were heard, without noise added. */
  readonly plainRight: number;
  /** Logged without a question, with other words than were confirmed. */
  readonly wrong: number;
  /** Backward speech that was taken for something to log. */
  readonly phantoms: number;
}

/** A head some part of the way from the shipped one to the learned one. */
interface Part {
  readonly head: PhoneHead;
  /** 0: the shipped one, 1: the learned one. */
  readonly share: number;
  readonly after: Heard;
}

/** What came of a training, before it is decided whether it is kept. */
export interface Tried extends Part {
  readonly before: Heard;
  /** How many phrases it was learned from, those held back among them. */
  readonly phrases: number;
  /** How many tries with phrases held back, those with added noise among them. */
  readonly heldBack: number;
}

/**
 * Learns how a person speaks from what he confirmed: the head of the phone model, trained on four of five phrases, and kept only if it
 * hears more of the fifth ones right, as they were and with noise added, none fewer without noise, logs none more wrong, and takes no more of
 * them played backwards for words; wholly, or else in part. TensorFlow.js must have its backend set.
 * @param progress told the fraction done, 0 to 1
 */
export function adaptPhones(
  assets: EarAssets,
  language: EarLanguage,
  clips: readonly ConfirmedClip[],
  progress: (fraction: number) => void,
  training: HeadTraining = HEAD_TRAINING,
): AdaptOutcome {
  const tried = tryPhones(assets, language, clips, progress, training);
  return "found" in tried ? { kind: "too-few", found: tried.found } : guarded(tried);
}

/** Kept only where it is better, and does no harm. */
export function guarded({ head, before, after, phrases, heldBack }: Tried): AdaptOutcome {
  const gain = { heldBack, rightBefore: before.right, rightAfter: after.right };
  const because = harmOf(before, after);
  return because === null ? { kind: "better", head, gain, phrases } : { kind: "no-better", gain, because };
}

/** The training alone; `found` where there are too few phrases. */
export function tryPhones(
  assets: EarAssets,
  language: EarLanguage,
  clips: readonly ConfirmedClip[],
  progress: (fraction: number) => void,
  training: HeadTraining = HEAD_TRAINING,
): Tried | { readonly found: number } {
  const { phones } = assets.manifest;
  const known = clips
    .flatMap(({ sound, text }) => {
      const chain = pronounced(text, language, phones);
      return chain && sound.length > 0 ? [{ sound, text, chain: chainOf(chain, phones.length) }] : [];
    })
    .slice(-MOST_PHRASES);
  if (known.length < FEWEST_PHRASES) return { found: known.length };

  const weights = new Weights(assets.manifest, assets.weights);
  const acoustic = createAcoustic(weights);
  try {
    const chance = seeded(known.length);
    const hidden = (sound: Float32Array) => acoustic.hidden(phoneFeatures(createMel().frames(sound)));
    const base = headOf(weights);
    const learned: Example[] = [];
    const held: Held[] = [];
    const backward: Float32Array[] = [];
    known.forEach(({ sound, text, chain }, at) => {
      if (at % HELD_BACK_OF === HELD_BACK_OF - 1) {
        held.push({ hidden: hidden(sound), text, plain: true });
        for (const decibels of HELD_BACK_NOISE)
          held.push({ hidden: hidden(noisy(sound, decibels, chance)), text, plain: false });
        backward.push(hidden(sound.toReversed()));
      } else {
        learned.push({ hidden: hidden(sound), wanted: chain });
        for (const decibels of LEARNED_NOISE)
          learned.push({ hidden: hidden(noisy(sound, decibels, chance)), wanted: chain });
        // What is no word stays none: without this, talk of others came to be taken for words.
        const none = hidden(sound.toReversed());
        learned.push({ hidden: none, wanted: chancesOf(base, none).logs.map(Math.exp) });
      }
      progress((0.3 * (at + 1)) / known.length);
    });
    const search = createSearch(acoustic, language, phones);
    const before = heardBy(base, held, backward, search);
    progress(0.4);
    const head = trainHead(base, learned, training, (done) => progress(0.4 + 0.5 * done));
    const part = (share: number) => {
      const some = between(base, head, share);
      return { head: some, share, after: heardBy(some, held, backward, search) };
    };
    const chosen = elseLess(before, part(1), () => part(LESS));
    progress(1);
    return { ...chosen, before, phrases: known.length, heldBack: held.length };
  } finally {
    acoustic.destroy();
  }
}

/** What was learned wholly; where that may not be kept, and less of it may, less. */
export function elseLess<T extends { readonly after: Heard }>(before: Heard, whole: T, less: () => T): T {
  if (harmOf(before, whole.after) === null) return whole;
  const some = less();
  return harmOf(before, some.after) === null ? some : whole;
}

/** Weight by weight, some part of the way from one head to another. */
export function between(from: PhoneHead, to: PhoneHead, share: number): PhoneHead {
  const mixed = (a: Float32Array, b: Float32Array) => a.map((one, at) => one + share * ((b[at] ?? 0) - one));
  return share === 1 ? to : { kernel: mixed(from.kernel, to.kernel), bias: mixed(from.bias, to.bias) };
}

/** Why what was learned may not be kept; null where it may. */
export function harmOf(before: Heard, after: Heard): Harm | null {
  if (after.right <= before.right) return "no-more-right";
  if (after.plainRight < before.plainRight) return "fewer-without-noise";
  if (after.wrong > before.wrong) return "more-wrong";
  return after.phantoms > before.phantoms ? "talk-taken-for-words" : null;
}

/** The head that is shipped. */
export function headOf(weights: Weights): PhoneHead {
  return { kernel: weights.get("head.filter").values, bias: weights.get("head.bias").values };
}

/** For each word its pronunciations as the model numbers phones; null where a word, or a phone, is unknown. */
function pronounced(
  text: string,
  { lexicon }: Pick<EarLanguage, "lexicon">,
  phones: readonly string[],
): number[][][] | null {
  const words = text.split(" ").map((word) => {
    const ways = Object.hasOwn(lexicon, word) ? (lexicon[word] ?? []) : [];
    return ways.map((way) => way.split(" ").map((phone) => phones.indexOf(phone)));
  });
  return words.every((ways) => ways.length > 0 && ways.flat().every((phone) => phone >= 0)) ? words : null;
}

function heardBy(
  head: PhoneHead,
  held: readonly Held[],
  backward: readonly Float32Array[],
  search: Search,
): Heard {
  const sure = held.flatMap(({ hidden, text, plain }) => {
    const { hypotheses, rejected } = judge(search.weigh(chancesOf(head, hidden)));
    const [best] = hypotheses;
    if (rejected || !best || best.confidence < LOGGED) return [];
    return [{ plain, right: best.words.map(({ word }) => word).join(" ") === text }];
  });
  const right = sure.filter((one) => one.right);
  return {
    right: right.length,
    plainRight: right.filter(({ plain }) => plain).length,
    wrong: sure.length - right.length,
    phantoms: backward.filter((hidden) => !judge(search.weigh(chancesOf(head, hidden))).rejected).length,
  };
}
