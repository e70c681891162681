import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { createAlone, HOP_COLUMNS } from "../../../src/device/spotter/alone.ts";
import { createCommands } from "../../../src/device/spotter/commands.ts";
import type { SpotterWindow } from "../../../src/device/spotter/spotter.ts";
import { BINS, CLASSES, COLUMNS, KEY_WORDS } from "../../../src/device/spotter/words.ts";

/** A second is 43 columns of 23.2 ms. Speech is -30 dB in each of its bins, the room as loud as asked. */
const SPEECH = -30;
const STEP_MS = HOP_COLUMNS * 23.22;

/** Windows over a stretch of columns, speech where it is said to be, all of them sure of one word that they have whole. */
function windows(spoken: readonly (readonly [number, number])[], room = -80, word = "stop"): SpotterWindow[] {
  const isSpoken = (column: number) => spoken.some(([from, to]) => column >= from && column < to);
  const last = Math.max(...spoken.map(([, to]) => to)) + 3 * COLUMNS;
  return Array.from({ length: Math.floor((last - COLUMNS) / HOP_COLUMNS) }, (_, place) => {
    const first = place * HOP_COLUMNS;
    const spectrogram = Float32Array.from({ length: COLUMNS * BINS }, (_, at) =>
      isSpoken(first + Math.floor(at / BINS)) ? SPEECH : room + ((at * 7) % 5),
    );
    const whole = spoken.some(([from, to]) => from >= first && to <= first + COLUMNS);
    const scores = Float32Array.from(CLASSES, (one) =>
      one === (whole ? word : "_background_noise_") ? 1 : 0,
    );
    return { scores, spectrogram, at: place * STEP_MS };
  });
}

const toldIn = (sound: readonly SpotterWindow[], open = false) => {
  const commands = createCommands();
  return sound.map((window) => commands.take(window, open));
};
const heardIn = (...how: Parameters<typeof toldIn>) => toldIn(...how).flatMap(({ heard }) => heard ?? []);
const aloneIn = (...how: Parameters<typeof toldIn>) =>
  toldIn(...how).flatMap(({ alone }) => alone?.word ?? []);

describe("a word that stands alone", () => {
  const word = [100, 118] as const;
  test.each([-80, -50, -36])("in a room of %d dB", (room) => {
    expect(aloneIn(windows([word], room))).toEqual(["stop"]);
    expect(heardIn(windows([word], room)).map(({ begins }) => begins)).toEqual([true]);
  });
  test("is told when it is known that nobody talks on, 0.6 s later", () => {
    const told = toldIn(windows([word]));
    const [heard, alone] = [told.findIndex((one) => one.heard), told.findIndex((one) => one.alone)];
    expect(alone - heard).toBe(3);
  });
});

describe("a word among others", () => {
  test.each([
    [
      "words before it",
      [
        [50, 80],
        [100, 118],
      ],
    ],
    [
      "words behind it",
      [
        [100, 118],
        [126, 160],
      ],
    ],
    [
      "in the middle of a sentence",
      [
        [40, 96],
        [100, 118],
        [122, 190],
      ],
    ],
    ["no gap at all", [[40, 190]]],
  ] as const)("%s: is no command", (_, spoken) => expect(aloneIn(windows(spoken))).toEqual([]));
  test("with talk before it, it does not begin", () =>
    expect(
      heardIn(
        windows([
          [50, 86],
          [100, 118],
        ]),
      ).map(({ begins }) => begins),
    ).not.toContain(true));
});

test("while the app's own voice is in the windows, no quiet is asked for", () => {
  const loud = windows([
    [40, 96],
    [100, 118],
    [122, 190],
  ]);
  expect(heardIn(loud, true).length).toBeGreaterThan(0);
  expect(aloneIn(loud, true)).toContain("stop");
});

test("what is around a window that was never seen is taken for talk", () => {
  const around = createAlone();
  expect([around.before(5), around.after(5)]).toEqual(["talk", "talk"]);
});

test("whatever is said: only key words, each alone at most once, and only after it was heard", () =>
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.integer({ min: 0, max: 300 }), fc.integer({ min: 1, max: 60 })), {
        minLength: 1,
        maxLength: 6,
      }),
      fc.constantFrom(...KEY_WORDS),
      fc.boolean(),
      (parts, word, open) => {
        const told = toldIn(
          windows(
            parts.map(([from, long]) => [from, from + long] as const),
            -80,
            word,
          ),
          open,
        );
        const heard = told.flatMap((one) => one.heard?.word ?? []);
        const alone = told.flatMap((one) => one.alone ?? []);
        expect(alone.length).toBeLessThanOrEqual(heard.length);
        for (const one of alone) expect(heard).toContain(one);
        for (const one of heard) expect(one.word).toBe(word);
      },
    ),
    { numRuns: 40 },
  ));
