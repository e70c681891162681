import { expect, test } from "vitest";
import { type SignalWord, signalWordOf } from "../../../src/app/boiler/signal-word.ts";
import type { Warning } from "../../../src/judge/judgement.ts";

// The order of the words is that of ANSI Z535.4 (from memory).

test.each<[SignalWord | null, Warning["code"][]]>([
  [null, []],
  ["danger", ["ambient-co-evacuate"]],
  ["danger", ["gas-smell"]],
  ["warning", ["flue-co-over-limit"]],
  ["warning", ["ambient-co-raised"]],
  ["caution", ["wrong-firing"]],
  ["notice", ["read-too-early"]],
  // The gravest of several, in whatever order.
  ["warning", ["read-too-early", "flue-co-over-limit", "wrong-firing"]],
  ["danger", ["left-open", "co-alarm"]],
])("%s: %j", (word, codes) => expect(signalWordOf(codes.map((code) => ({ code })))).toBe(word));
