import { type Hypothesis, MOST_RIVALS, type Phrase, type Rival, type Utterance } from "./heard.ts";
import type { Item, Meaning } from "./item.ts";

/** A hypothesis with what the parser makes of it. */
interface Read {
  readonly text: string;
  readonly confidence: number;
  readonly meaning: Meaning;
  /** One key for each thing in it, equal where the things are. */
  readonly keys: readonly string[];
}

/**
 * The phrase that an utterance is taken as: of all that may have been said the meaning most of the confidence lies with,
 * because ways that mean the same are no rivals. Each word has the confidence of the thing it is part of: how much
 * of what may have been said agrees on that thing. Null where it was not speech for the log.
 * @param parse the parser, without context: rivals are compared, not logged
 */
export function choose(utterance: Utterance, parse: (text: string) => Meaning): Phrase | null {
  const { engine, hypotheses, rejected, sound } = utterance;
  if (rejected) return null;
  const read = hypotheses
    .filter(({ words }) => words.length > 0)
    .map((hypothesis) => readingOf(hypothesis, parse));
  const best = bestOf(read, engine === "platform" ? 0 : NEAR);
  if (!best) return null;
  const confidence = agreed(read, (other) => sameThings(other, best));
  const rivals = rivalsOf(best, read);
  return {
    text: best.text,
    engine,
    confidence,
    confidences: wordConfidences(best, read, confidence),
    ...(rivals.length > 0 && { rivals }),
    sound,
  };
}

/** The likeliest wording of each other meaning for the log, likeliest meaning first. */
function rivalsOf(best: Read, read: readonly Read[]): Rival[] {
  const others = read.filter((one, at) => {
    const isFirst = read.findIndex((other) => sameThings(other, one)) === at;
    return isFirst && one.keys.length > 0 && !sameThings(one, best);
  });
  return others
    .map((one) => ({ text: one.text, confidence: agreed(read, (other) => sameThings(other, one)) }))
    .sort((a, b) => b.confidence - a.confidence)
    .slice(0, MOST_RIVALS);
}

function readingOf({ words, confidence }: Hypothesis, parse: (text: string) => Meaning): Read {
  const text = words.map(({ word }) => word).join(" ");
  const meaning = parse(text);
  const keys = [
    ...meaning.items.map(keyOf),
    ...meaning.unsure.map((unsure) => `? ${unsure.reason} ${unsure.candidates.map(keyOf).join(" ")}`),
  ];
  return { text, confidence, meaning, keys };
}

/**
 * A wording for the log goes before one that means nothing by itself where it is at least this likely beside it. "The high
 * one" means something only to an open question. Platforms tell the confidence of their first wording alone.
 */
const NEAR = 0.5;

/** The likeliest meaning's likeliest wording; something for the log goes before nothing. */
function bestOf(read: readonly Read[], near: number): Read | undefined {
  const top = Math.max(0, ...read.map(({ confidence }) => confidence));
  const meant = read.filter(({ keys, confidence }) => keys.length > 0 && confidence >= near * top);
  const among = meant.length > 0 ? meant : read;
  return among.reduce<Read | undefined>((best, one) => {
    if (!best) return one;
    const [a, b] = [one, best].map((way) => agreed(read, (other) => sameThings(other, way)));
    return (a ?? 0) > (b ?? 0) ? one : best;
  }, undefined);
}

function agreed(read: readonly Read[], agrees: (other: Read) => boolean): number {
  return Math.min(
    1,
    read.filter(agrees).reduce((sum, { confidence }) => sum + confidence, 0),
  );
}

function sameThings(one: Read, other: Read): boolean {
  return one.keys.length === other.keys.length && one.keys.every((key, at) => key === other.keys[at]);
}

/** Words of no thing have the confidence of the whole. */
function wordConfidences(best: Read, read: readonly Read[], whole: number): number[] {
  const words = best.text.split(" ");
  const out = words.map(() => whole);
  let from = 0;
  best.meaning.items.forEach((item, index) => {
    if (item.kind !== "reading") return;
    const said = item.said.split(" ");
    const at = words.findIndex(
      (_, start) => start >= from && said.every((word, n) => words[start + n] === word),
    );
    if (at < 0) return;
    const key = best.keys[index] ?? "";
    out.fill(
      agreed(read, ({ keys }) => keys.includes(key)),
      at,
      at + said.length,
    );
    from = at + said.length;
  });
  return out;
}

/** Equal for things that are the same whatever words they came from. */
function keyOf(item: Item): string {
  return JSON.stringify(item, (name, value: unknown) =>
    name === "said" || name === "confidence" ? undefined : value,
  );
}
