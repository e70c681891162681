import type { Sounded } from "../../../src/device/ears/offline/recogniser.ts";
import { choose } from "../../../src/meaning/choose.ts";
import type { Phrase, Utterance } from "../../../src/meaning/heard.ts";
import type { Parser } from "../../../src/meaning/parser.ts";
import { shortItem } from "../../support/short.ts";

/** What became of the things said: each is logged right, asked about, or passed over; and some are logged wrong. */
export class Tally {
  right = 0;
  asked = 0;
  passedOver = 0;
  wrong = 0;
  said = 0;
  /** Readings, turns and mends among the wrong. */
  numbers = 0;
  readonly mistakes: string[] = [];
  /** Confidence of what was heard for the log, and whether it was right. */
  readonly trusted: { confidence: number; right: boolean }[] = [];
  readonly #parser: Parser;

  constructor(parser: Parser) {
    this.#parser = parser;
  }

  utterances(said: string, heard: readonly Utterance[]): void {
    const phrases = heard.flatMap((utterance) => choose(utterance, (text) => this.#parser.parse(text)) ?? []);
    this.phrases(said, phrases);
  }

  phrases(said: string, phrases: readonly Phrase[]): void {
    const expected = this.#parser.parse(said).items.map(shortItem);
    const meanings = phrases.map(({ text, confidence, confidences }) =>
      this.#parser.parse(text, undefined, confidences ?? confidence),
    );
    const logged = meanings.flatMap(({ items }) => items.map(shortItem));
    const asked = meanings.reduce((sum, { unsure }) => sum + unsure.length, 0);
    const right = expected.filter((item) => logged.includes(item)).length;
    const wrong = logged.filter((item) => !expected.includes(item)).length;
    this.numbers += logged.filter((item) => !expected.includes(item) && /\d/.test(item)).length;
    const rest = expected.length - right;
    this.said += expected.length;
    this.right += right;
    this.wrong += wrong;
    this.asked += Math.min(rest, asked);
    this.passedOver += Math.max(0, rest - asked - wrong);
    if (wrong > 0) this.mistakes.push(`"${said}" -> "${phrases.map(({ text }) => text).join(" | ")}"`);
    for (const { text, confidence } of phrases) {
      this.trusted.push({
        confidence,
        right: this.#parser.parse(text).items.map(shortItem).join() === expected.join(),
      });
    }
  }

  line(): string {
    const share = (part: number): string => `${((100 * part) / Math.max(1, this.said)).toFixed(1)} %`;
    return `right ${share(this.right)}, asked ${share(this.asked)}, passed over ${share(this.passedOver)}, wrong ${share(this.wrong)}`;
  }
}

export const utterancesIn = (sounded: readonly Sounded[]): Utterance[] =>
  sounded.flatMap((one) => (one.kind === "utterance" ? [one.utterance] : []));

/** Of what was given a confidence between the bounds, how much was right. */
export function calibration(trusted: Tally["trusted"]): string[] {
  const bounds = [0, 0.5, 0.7, 0.85, 0.95, 0.99, 1.01];
  return bounds.slice(1).flatMap((to, at) => {
    const from = bounds[at] ?? 0;
    const inside = trusted.filter(({ confidence }) => confidence >= from && confidence < to);
    if (inside.length === 0) return [];
    const right = inside.filter((one) => one.right).length;
    return [
      `  ${from.toFixed(2)} to ${Math.min(1, to).toFixed(2)}: ${((100 * right) / inside.length).toFixed(0)} % of ${inside.length}`,
    ];
  });
}
