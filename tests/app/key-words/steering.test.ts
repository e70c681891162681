import { signal } from "@preact/signals";
import { describe, expect, test } from "vitest";
import { Steering } from "../../../src/app/key-words/steering.ts";
import { Listening } from "../../../src/app/sound/listening.ts";
import { choose } from "../../../src/meaning/choose.ts";
import type { Utterance } from "../../../src/meaning/heard.ts";
import { steers } from "../../../src/meaning/steers.ts";
import { parser } from "../../support/talk.ts";
import { Boiler } from "../boiler.ts";
import { puppetEar, settled, utterance } from "../puppet-ear.ts";
import { puppetSpotter } from "../puppet-spotter.ts";

const UNDERSTANDING = {
  choose: (heard: Utterance) => choose(heard, (text) => parser.parse(text)),
  steers: (text: string) => steers(parser.parse(text)),
};

/** A visit with an ear and a spotter that hear what the test makes them hear; the voice is over at once unless it is held. */
async function rig() {
  const clock = { at: 0 };
  const ear = puppetEar();
  const spotter = puppetSpotter(clock);
  const boiler = new Boiler();
  const done: string[] = [];
  const spoken: string[] = [];
  const ends: (() => void)[] = [];
  let holds = false;
  const speaker = {
    speak(text: string) {
      if (text === "") done.push("beep");
      else spoken.push(text);
      if (!holds || text === "") return Promise.resolve();
      return new Promise<void>((resolve) => ends.push(resolve));
    },
    cancel() {
      for (const end of ends.splice(0)) end();
    },
  };
  const listening = new Listening(
    speaker,
    UNDERSTANDING,
    (phrase) => void boiler.session.hear(phrase),
    () => false,
  );
  const isOn = signal(true);
  const session = signal(boiler.session);
  const listen = () => listening.start(async () => ear.ear);
  boiler.speaks = (text) => void listening.say(text);
  boiler.does = (effect) => {
    if (effect === "rest") void steering.rest();
    if (effect === "figure-by-figure") steering.begin();
  };
  const steering = new Steering(
    {
      listening,
      spotter: spotter.spotter,
      speaker,
      session: () => session.value,
      heard: (phrase) => void boiler.session.hear(phrase),
      wake: () => void listen(),
      settings: () => ({ headset: false, keyWords: isOn.value }),
      elapsed: () => clock.at,
    },
    () => null,
  );
  const { state, spelling } = steering;
  await listen();
  await settled();
  const bodies = () => boiler.session.visit.value.entries.map(({ body }) => body);
  return {
    clock,
    ear,
    spotter,
    boiler,
    listen,
    listening,
    state,
    spelling,
    isOn,
    steering,
    done,
    spoken,
    holds: (on: boolean) => {
      holds = on;
    },
    voiceEnds: () => speaker.cancel(),
    /** What a phrase gave by the ear. */
    async heard(...args: Parameters<typeof utterance>) {
      clock.at += 100;
      ear.hears(utterance(...args));
      await settled();
      await settled();
    },
    async says(...words: Parameters<typeof spotter.hears>[0][]) {
      for (const [at, word] of words.entries()) spotter.hears(word, 3, at + 1 < words.length ? 1 : 4);
      await settled();
      await settled();
    },
    async quiet(seconds: number) {
      spotter.silence(seconds);
      await settled();
      await settled();
    },
    bodies,
    readings: () =>
      bodies().flatMap((body) => (body.kind === "reading" ? [`${body.quantity} ${body.value}`] : [])),
    engines: () => boiler.session.visit.value.entries.map(({ engine }) => engine),
  };
}

const NOTHING = { rejected: true };

describe("a question in noise", () => {
  test("“yes” that the recogniser did not hear logs what was asked, once", async () => {
    const app = await rig();
    await app.heard("high fire co2 ninety two");
    expect(app.readings()).toEqual([]);
    await app.quiet(2);
    await app.says("yes");
    await app.heard("hum", 0.9, NOTHING);
    expect(app.readings()).toEqual(["co2 9.2"]);
    expect(app.engines().at(-1)).toBe("key-words");
    await app.quiet(3);
    expect(app.readings()).toEqual(["co2 9.2"]);
  });

  test("where nothing was heard it counts after a moment", async () => {
    const app = await rig();
    await app.heard("high fire co2 ninety two");
    await app.quiet(2);
    await app.says("yes");
    expect(app.readings()).toEqual([]);
    await app.quiet(1);
    expect(app.readings()).toEqual(["co2 9.2"]);
  });

  test("heard by both it is one answer", async () => {
    const app = await rig();
    await app.heard("high fire co2 ninety two");
    await app.quiet(2);
    await app.says("yes");
    await app.heard("yes");
    await app.quiet(3);
    expect(app.readings()).toEqual(["co2 9.2"]);
    expect(app.bodies().filter(({ kind }) => kind === "answer")).toHaveLength(1);
    expect(app.engines().at(-1)).toBe("offline");
  });

  test("heard by both, the phrase without its yes and late, it is logged once", async () => {
    const app = await rig();
    await app.heard("high fire co2 ninety two");
    await app.quiet(2);
    await app.says("yes");
    await app.quiet(4);
    await app.heard("high fire co2 nine point two", 0.95, { audioSeconds: 7 });
    expect(app.readings()).toEqual(["co2 9.2"]);
  });

  test("“no” drops it", async () => {
    const app = await rig();
    await app.heard("high fire co2 ninety two");
    await app.quiet(2);
    await app.says("no");
    await app.quiet(2);
    expect(app.bodies().at(-1)).toMatchObject({ kind: "answer", accepted: false });
  });

  test("“yes, no” is no answer", async () => {
    const app = await rig();
    await app.heard("high fire co2 ninety two");
    await app.quiet(2);
    await app.says("yes", "no");
    await app.quiet(3);
    expect(app.bodies()).toHaveLength(1);
  });

  test("an old question is not answered by a word", async () => {
    const app = await rig();
    await app.heard("high fire co2 ninety two");
    await app.quiet(31);
    await app.says("yes");
    await app.quiet(3);
    expect(app.readings()).toEqual([]);
  });

  test("which screw", async () => {
    const app = await rig();
    await app.heard("a quarter turn clockwise");
    await app.quiet(2);
    await app.says("low");
    await app.quiet(2);
    expect(app.bodies().at(-1)).toMatchObject({ kind: "adjustment", adjuster: "low", turns: 0.25 });
  });
});

describe("a danger", () => {
  test("is not lost because the rest of its phrase was unclear and a key word was heard in it", async () => {
    const app = await rig();
    await app.heard("high fire co2 ninety two");
    await app.quiet(2);
    await app.says("no");
    await app.heard("no no i smell gas co2 ninety two");
    expect(app.bodies()).toContainEqual(expect.objectContaining({ kind: "mark", mark: "gas-smell" }));
    await app.quiet(3);
    expect(app.engines()).not.toContain("key-words");
  });

  test("nor said right after a key word has counted", async () => {
    const app = await rig();
    await app.heard("high fire co2 ninety two");
    await app.quiet(2);
    await app.says("no");
    await app.quiet(1.2);
    await app.heard("co alarm co two", 0.95, { audioSeconds: 3 });
    expect(app.bodies()).toContainEqual(expect.objectContaining({ kind: "mark", mark: "co-alarm" }));
  });
});

describe("a key word that waits", () => {
  test("is no answer to another question than the one it was said to", async () => {
    const app = await rig();
    await app.heard("high fire co2 ninety two");
    await app.quiet(2);
    await app.says("yes");
    // Typed meanwhile: another number, which is asked about as well.
    await app.boiler.session.hear({ text: "no", engine: "typed", confidence: 1, sound: null });
    await app.boiler.session.hear({
      text: "low fire co2 eighty nine",
      engine: "typed",
      confidence: 1,
      sound: null,
    });
    await app.quiet(4);
    expect(app.readings()).toEqual([]);
  });
});

describe("without a question", () => {
  test("figures, yes, no, high and low do nothing", async () => {
    const app = await rig();
    await app.says("yes", "no", "high", "low", "nine", "point", "two", "minus", "mark");
    await app.quiet(3);
    expect(app.bodies()).toEqual([]);
    expect(app.boiler.said).toEqual([]);
    expect(app.spelling.value.kind).toBe("off");
  });

  test("“next” and “again” do what the phrases do", async () => {
    const app = await rig();
    await app.says("next");
    await app.quiet(2);
    const [next] = app.boiler.said;
    expect(next).toMatch(/\w/);
    await app.says("again");
    await app.quiet(2);
    expect(app.boiler.said).toEqual([next, next]);
  });
});

describe("rest", () => {
  const resting = async () => {
    const app = await rig();
    await app.says("stop");
    await app.quiet(2);
    // The answer is over.
    await app.quiet(1);
    return app;
  };

  test("“stop” puts the recogniser to rest, its microphone is let go, the key words go on", async () => {
    const app = await resting();
    expect([app.listening.state.value.kind, app.ear.listens(), app.spotter.listens()]).toEqual([
      "resting",
      false,
      true,
    ]);
    expect(app.boiler.said).toEqual(["Not listening."]);
    expect(app.spoken.at(-1)).toBe("Key words are still heard: mark wakes it.");
  });

  test("“mark” wakes it, with a tone", async () => {
    const app = await resting();
    app.spotter.window("mark");
    await settled();
    expect(app.listening.state.value.kind).toBe("resting");
    app.spotter.window("mark");
    await settled();
    expect([app.listening.state.value.kind, app.ear.listens(), app.spotter.listens()]).toEqual([
      "listening",
      true,
      true,
    ]);
    expect(app.done).toEqual(["beep"]);
  });

  test.each<[string, (app: Awaited<ReturnType<typeof rig>>) => void]>([
    [
      "one window with something between",
      ({ spotter }) => [
        spotter.window("mark"),
        spotter.window(null),
        spotter.window("mark"),
        spotter.window(null),
      ],
    ],
    [
      "less than quite sure",
      ({ spotter }) => spotter.silence(0) ?? [1, 2, 3].map(() => spotter.window("mark", 0.5)),
    ],
    [
      "other words",
      ({ spotter }) => (["stop", "yes", "next", "nine"] as const).map((word) => spotter.hears(word)),
    ],
  ])("is not woken by %s", async (_, sounds) => {
    const app = await resting();
    sounds(app);
    await settled();
    expect([app.listening.state.value.kind, app.done]).toEqual(["resting", []]);
  });

  test("stopped, both microphones are let go", async () => {
    const app = await resting();
    await app.listening.stop();
    await settled();
    expect([app.ear.listens(), app.spotter.listens(), app.state.value.kind]).toEqual([false, false, "off"]);
  });

  test("a spotter that fails then is told, for nothing would wake", async () => {
    const app = await resting();
    app.spotter.fails("The microphone was lost.");
    expect(app.listening.state.value).toEqual({ kind: "problem", message: "The microphone was lost." });
  });

  test("key words switched off then, too", async () => {
    const app = await resting();
    app.isOn.value = false;
    await settled();
    expect([app.listening.state.value.kind, app.spotter.listens()]).toEqual(["problem", false]);
  });
});

describe("beside the ear", () => {
  test("a spotter that fails leaves it alone", async () => {
    const app = await rig();
    app.spotter.fails("No sound.");
    expect(app.state.value).toEqual({ kind: "problem", message: "No sound." });
    await app.heard("high fire co2 nine point two");
    expect(app.readings()).toEqual(["co2 9.2"]);
  });

  test("a spotter that fails is told once, and tried again with the next start of the ear", async () => {
    const app = await rig();
    const started = app.spotter.starts();
    app.spotter.fails("The microphone is in use by another program.");
    for (let n = 0; n < 20; n++) {
      app.ear.emit({ kind: "level", loudness: 0.1, voice: 0.1 });
      await settled();
    }
    expect(app.state.value.kind).toBe("problem");
    expect(app.spotter.starts()).toBe(started);
    await app.listening.stop();
    await app.listen();
    await settled();
    expect([app.state.value.kind, app.spotter.starts()]).toEqual(["listening", started + 1]);
  });

  test("an ear that fails takes it along", async () => {
    const app = await rig();
    app.ear.emit({ kind: "problem", message: "lost" });
    await settled();
    expect(app.spotter.listens()).toBe(false);
  });

  test("switched off and on", async () => {
    const app = await rig();
    app.isOn.value = false;
    await settled();
    expect([app.ear.listens(), app.spotter.listens()]).toEqual([true, false]);
    app.isOn.value = true;
    await settled();
    expect([app.spotter.listens(), app.state.value.kind]).toEqual([true, "listening"]);
  });

  test("switched off and on at once", async () => {
    const app = await rig();
    app.isOn.value = false;
    app.isOn.value = true;
    await settled();
    expect([app.spotter.listens(), app.state.value.kind]).toEqual([true, "listening"]);
  });
});

describe("figure by figure", () => {
  const begun = async () => {
    const app = await rig();
    await app.heard("co2 figure by figure");
    expect(app.boiler.said).toEqual(["CO2, figure by figure. C O 2: how much?"]);
    expect(app.spelling.value.kind).toBe("taking");
    await app.quiet(1.4);
    return app;
  };

  test("a value is taken, read back, and logged after a yes", async () => {
    const app = await begun();
    await app.says("nine", "point", "two");
    expect(app.done).toEqual(["beep", "beep", "beep"]);
    await app.quiet(2.5);
    expect([app.spelling.value.kind, app.readings()]).toEqual(["reading-back", []]);
    await app.quiet(1.4);
    await app.says("yes");
    expect(app.readings()).toEqual(["co2 9.2"]);
    expect(app.spelling.value.kind).toBe("off");
    expect(app.engines().at(-1)).toBe("key-words");
  });

  test("what the recogniser makes of the same words is not taken, nor the yes behind it", async () => {
    const app = await begun();
    await app.says("nine");
    await app.heard("nine");
    await app.says("point", "two");
    await app.heard("co2 nine point two");
    await app.quiet(4);
    expect(app.readings()).toEqual([]);
    for (let n = 0; n < 3; n++) app.spotter.window("yes");
    await app.heard("yes");
    await app.quiet(3);
    expect(app.readings()).toEqual(["co2 9.2"]);
    expect(app.boiler.said.filter((text) => text.includes("confirm"))).toEqual([]);
  });

  test("a phrase that began meanwhile and ends after it does not log the same again; another reading is taken", async () => {
    const app = await begun();
    await app.says("nine", "point", "two");
    await app.quiet(4);
    await app.says("yes");
    await app.heard("high fire co2 nine point seven", 0.95, { audioSeconds: 6 });
    await app.heard("high fire co forty", 0.95, { audioSeconds: 6 });
    expect(app.readings()).toEqual(["co2 9.2", "co 40"]);
    await app.quiet(3);
    await app.heard("high fire co2 nine point seven");
    expect(app.readings()).toEqual(["co2 9.2", "co 40", "co2 9.7"]);
  });

  test("a “yes” at the end of somebody's talk logs nothing; one that stands alone does", async () => {
    const app = await begun();
    await app.says("nine", "point", "two");
    await app.quiet(3);
    await app.quiet(3);
    app.spotter.talk(6);
    await app.says("yes");
    expect([app.spelling.value.kind, app.readings()]).toEqual(["reading-back", []]);
    await app.quiet(2);
    await app.says("yes");
    expect(app.readings()).toEqual(["co2 9.2"]);
  });

  test("a danger is taken at once, and ends it", async () => {
    const app = await begun();
    await app.says("nine");
    await app.heard("i smell gas");
    expect(app.spelling.value.kind).toBe("off");
    expect(app.bodies().at(-1)).toMatchObject({ kind: "mark", mark: "gas-smell" });
  });

  test("of room CO the recogniser's own number is not taken, as of any value", async () => {
    const app = await rig();
    await app.heard("room co figure by figure");
    expect(app.spelling.value.kind).toBe("taking");
    await app.quiet(1.4);
    await app.says("nine");
    await app.heard("nine");
    await app.says("five");
    await app.heard("room co nine five");
    await app.heard("room co ninety five");
    expect(app.readings()).toEqual([]);
    expect(app.spelling.value).toMatchObject({ figures: [{ word: "nine" }, { word: "five" }] });
  });

  test.each(["room co", "co ambient forty two ppm"])(
    "“%s” is not lost while another value is given",
    async (said) => {
      const app = await begun();
      await app.says("nine");
      await app.heard(said, 0.6);
      expect(app.spelling.value.kind).toBe("off");
      expect(app.bodies().at(-1)).toMatchObject({ kind: "unsure" });
    },
  );

  test("over the read-back no figure and no yes is taken", async () => {
    const app = await begun();
    await app.says("nine");
    app.holds(true);
    await app.quiet(2.5);
    expect(app.listening.speaking.value).toBe(true);
    await app.says("four", "yes");
    expect(app.spelling.value).toMatchObject({
      kind: "reading-back",
      heard: false,
      figures: [{ word: "nine" }],
    });
    app.holds(false);
    await app.says("no");
    expect(app.spelling.value).toMatchObject({ kind: "taking", figures: [] });
  });

  test("“how much?” is answered by figures, which are read back first", async () => {
    const app = await rig();
    await app.heard("low fire co2");
    await app.quiet(2);
    await app.says("eight", "point", "nine");
    await app.quiet(4);
    expect([app.spelling.value.kind, app.readings()]).toEqual(["reading-back", []]);
    await app.quiet(1.4);
    await app.says("yes");
    expect(app.bodies().at(-1)).toMatchObject({ kind: "reading", value: 8.9, firing: "low" });
  });

  test("a number that failed twice is asked for so, unasked", async () => {
    const app = await rig();
    await app.heard("high fire co2 nine point two", 0.6);
    expect(app.spelling.value.kind).toBe("off");
    // What is new is drawn before it is said, and what is asked of the person comes last.
    app.boiler.breathes = settled;
    await app.heard("co2 nine point two", 0.6);
    for (let turns = 0; turns < 5; turns++) await settled();
    expect(app.spelling.value.kind).toBe("taking");
    expect(app.spoken.slice(-2)).toEqual(["C O two, nine point two?", "C O two, figure by figure."]);
  });

  test("what became of it is shown in place of the answer, until the next one", async () => {
    const app = await begun();
    await app.says("stop");
    expect(app.boiler.session.told.value).toBe("CO2 is not logged.");
    await app.heard("low fire");
    expect(app.boiler.session.told.value).toBeNull();
  });

  test("an ear that is switched off leaves it, and the screen says so", async () => {
    const app = await begun();
    await app.listening.stop();
    await settled();
    expect([app.spelling.value.kind, app.boiler.session.told.value]).toEqual(["off", "CO2 is not logged."]);
  });

  test("typed, it is left", async () => {
    const app = await begun();
    app.steering.leave();
    await app.says("nine");
    expect([app.spelling.value.kind, app.done]).toEqual(["off", []]);
  });

  test("lost key words end it, aloud", async () => {
    const app = await begun();
    await app.says("nine");
    app.spotter.fails("The microphone was lost.");
    expect(app.spelling.value.kind).toBe("off");
    expect(app.spoken.at(-1)).toMatch(/^C O two is not logged\. Key words are not heard now/);
    expect(app.readings()).toEqual([]);
  });

  test("at rest it does not begin", async () => {
    const app = await rig();
    await app.heard("low fire co2");
    await app.listening.rest();
    expect([app.steering.begin(), app.spelling.value.kind]).toEqual([false, "off"]);
  });

  test("without key words it does not begin", async () => {
    const app = await rig();
    app.isOn.value = false;
    await app.heard("co2");
    expect(app.steering.begin()).toBe(false);
    expect(app.boiler.session.told.value).toMatch(/^Key words are not heard now/);
  });
});
