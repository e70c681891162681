import { describe, expect, test } from "vitest";
import type { Turn } from "../../../src/answer/turn.ts";
import { Session } from "../../../src/app/boiler/session.ts";
import type { Incoming } from "../../../src/app/boiler/session-world.ts";
import type { Phrase } from "../../../src/meaning/heard.ts";
import type { Entry } from "../../../src/visit/entry.ts";
import type { Visit } from "../../../src/visit/visit.ts";
import { NOTHING_JUDGED } from "../../support/judged.ts";
import { ALONE, entries, visitOf } from "../build.ts";

const replyTo = (answer: string): Turn["reply"] => ({
  answer,
  earcon: "heard",
  headline: answer,
  detail: "",
  judgement: NOTHING_JUDGED,
  effect: "none",
});
const typed = (text: string): Phrase => ({ text, engine: "typed", confidence: 1, sound: null });

/** Each phrase becomes a note and is answered with its own words and the number of entries before it. */
function take(visit: Visit, phrase: Phrase, at: string): Turn {
  const { text } = phrase;
  const seq = visit.entries.length;
  const entry: Entry = {
    id: `e${seq}`,
    seq,
    at,
    engine: "typed",
    phrase: text,
    said: text,
    confidence: 1,
    body: { kind: "note", text },
  };
  return {
    entries: [entry],
    visit: { ...visit, entries: [...visit.entries, entry] },
    meaning: { text, items: [{ kind: "note", text }], unsure: [] },
    reply: replyTo(`${text} after ${seq}`),
    asked: [],
  };
}

/** A session over a disk that the test can make slow or full; everything that happens is written down in order. */
function running(instead?: () => { entries: Entry[]; answer: string }) {
  const happened: string[] = [];
  const disk = { full: false, wait: Promise.resolve() };
  const voice = { breaksAt: "" };
  let ticks = 0;
  const session = new Session(visitOf(), {
    ...ALONE,
    take: (visit, phrase, at) => {
      const turn = take(visit, phrase, at);
      if (!instead) return turn;
      const { entries, answer } = instead();
      return { ...turn, visit, entries, reply: replyTo(answer) };
    },
    amend: (visit, amendment, at) => {
      if (amendment.kind !== "mend") return { ok: false, problem: "Not that.", candidates: [] };
      return { ok: true, turn: take(visit, typed(amendment.text), at) };
    },
    stand: () => replyTo("standing"),
    understand: (text) => [{ from: 0, to: text.length }],
    append: async (_, entries) => {
      await disk.wait;
      if (disk.full) throw new Error("disk full");
      for (const entry of entries) happened.push(`stored ${entry.phrase}`);
    },
    now: () => new Date(Date.UTC(2026, 10, 25, 8, 0, ticks++)).toISOString(),
    elapsed: () => 0,
    say: (text) => {
      if (text === voice.breaksAt) throw new Error("no voice");
      happened.push(`said ${text}`);
    },
    keepSound: (visitId, { seq }, sound) =>
      happened.push(`sound of ${visitId} ${seq}, ${sound.length} samples`),
    talk: () => "normal",
    effect: async () => {},
    reason: (error) => (error instanceof Error ? error.message : "?"),
    breathe: async () => {},
  });
  return { session, happened, disk, voice };
}

const heldText = (incoming: Incoming) =>
  "phrase" in incoming ? incoming.phrase.text : incoming.amendment.kind;

test("a visit opens with where it stands", () => {
  expect(running().session.given.value.reply.answer).toBe("standing");
});

test("each phrase is stored before it is answered, one after the other, however fast they come", async () => {
  const { session, happened } = running();
  await Promise.all([session.hear(typed("a")), session.hear(typed("b"))]);
  expect(happened).toEqual(["stored a", "said a after 0", "stored b", "said b after 1"]);
});

test("nothing is shown before it is stored", async () => {
  const { session, disk } = running();
  let onDisk = () => {};
  disk.wait = new Promise((resolve) => {
    onDisk = resolve;
  });
  const hearing = session.hear(typed("a"));
  await new Promise<void>((resolve) => setImmediate(resolve));
  expect(session.visit.value.entries).toEqual([]);
  expect(session.given.value.reply.answer).toBe("standing");
  onDisk();
  await hearing;
  expect(session.given.value.reply.answer).toBe("a after 0");
});

test("a phrase has the time at which it came in, not at which its turn came", async () => {
  const { session } = running();
  await Promise.all([session.hear(typed("a")), session.hear(typed("b"))]);
  const [a = 0, b = 0] = session.visit.value.entries.map(({ at }) => Date.parse(at) / 1000);
  // The clock goes on by a second each time it is looked at, as it is when something is stored.
  expect(b - a).toBe(1);
});

test("a phrase with nothing for the log changes nothing and is not answered", async () => {
  const { session, happened } = running(() => ({ entries: [], answer: "" }));
  await session.hear(typed("hand me the key"));
  expect(happened).toEqual([]);
  expect(session.given.value.reply.answer).toBe("standing");
  expect(session.heard.value).toMatchObject({ text: "hand me the key", entries: [], answered: false });
});

test("a question that logs nothing is answered all the same", async () => {
  const { session, happened } = running(() => ({ entries: [], answer: "Go to low fire." }));
  await session.hear(typed("what is next"));
  expect(happened.at(-1)).toBe("said Go to low fire.");
  expect(session.given.value.reply.answer).toBe("Go to low fire.");
  expect(session.heard.value).toMatchObject({ text: "what is next", entries: [], answered: true });
});

describe("the sound of a phrase", () => {
  const spoken = (text: string): Phrase => ({ ...typed(text), sound: new Float32Array(8) });

  test("is handed on after the entry is stored and answered, under its place", async () => {
    const { session, happened } = running();
    await session.hear(typed("a"));
    await session.hear(spoken("b"));
    expect(happened.slice(2)).toEqual(["stored b", "said b after 1", "sound of v1 1, 8 samples"]);
  });
  test("goes with the first of several entries", async () => {
    const { session, happened } = running(() => ({
      entries: entries({ kind: "note", text: "a" }, { kind: "note", text: "b" }),
      answer: "yes",
    }));
    await session.hear(spoken("a"));
    expect(happened.filter((one) => one.startsWith("sound"))).toEqual(["sound of v1 0, 8 samples"]);
  });
  test("is dropped where nothing was logged", async () => {
    const { session, happened } = running(() => ({ entries: [], answer: "Go to low fire." }));
    await session.hear(spoken("what is next"));
    expect(happened).toEqual(["said Go to low fire."]);
  });
  test("waits with a held phrase, and is kept when that is tried again", async () => {
    const { session, happened, disk } = running();
    disk.full = true;
    await session.hear(spoken("a"));
    expect(happened).toEqual(["said Not saved. Look at the screen."]);
    disk.full = false;
    await session.retry();
    expect(happened.at(-1)).toBe("sound of v1 0, 8 samples");
  });
});

test("where answering a phrase breaks, it is told, and the phrases after it are taken", async () => {
  const { session, happened, voice } = running();
  voice.breaksAt = "a after 0";
  const broken = session.hear(typed("a"));
  const next = session.hear(typed("b"));
  await expect(broken).rejects.toThrow("no voice");
  await next;
  expect(happened).toEqual(["stored a", "stored b", "said b after 1"]);
  expect(session.pending.value).toBe(0);
});

describe("where the disk takes nothing", () => {
  test("that is said and the words stay, in place of the answer", async () => {
    const { session, happened, disk } = running();
    disk.full = true;
    await session.hear(typed("a"));
    expect(happened).toEqual(["said Not saved. Look at the screen."]);
    expect(session.held.trouble.value).toBe("disk full");
    expect(session.held.incoming.value.map(heldText)).toEqual(["a"]);
    expect(session.visit.value.entries).toEqual([]);
  });

  test("later phrases wait behind it, and go in order when it is tried again", async () => {
    const { session, happened, disk } = running();
    disk.full = true;
    await session.hear(typed("a"));
    disk.full = false;
    await session.hear(typed("b"));
    expect(session.held.incoming.value).toHaveLength(2);
    happened.length = 0;
    await session.retry();
    expect(happened).toEqual(["stored a", "said a after 0", "stored b", "said b after 1"]);
    expect([session.held.incoming.value, session.held.trouble.value]).toEqual([[], null]);
  });

  test("trying again in vain keeps them all", async () => {
    const { session, disk } = running();
    disk.full = true;
    await session.hear(typed("a"));
    await session.hear(typed("b"));
    await session.retry();
    expect(session.held.incoming.value.map(heldText)).toEqual(["a", "b"]);
  });

  test("dropped words are not logged, and work goes on", async () => {
    const { session, happened, disk } = running();
    disk.full = true;
    await session.hear(typed("a"));
    disk.full = false;
    session.drop();
    await session.hear(typed("b"));
    expect(happened.at(-1)).toBe("said b after 0");
  });
});

describe("a correction by hand", () => {
  const mend = (text: string) => ({ kind: "mend", id: "e0", text }) as const;

  test("goes through the same queue: in order, stored before it is answered", async () => {
    const { session, happened } = running();
    await Promise.all([session.hear(typed("a")), session.amend(mend("b")), session.hear(typed("c"))]);
    expect(happened).toEqual([
      "stored a",
      "said a after 0",
      "stored b",
      "said b after 1",
      "stored c",
      "said c after 2",
    ]);
  });
  test("is not answered aloud where nobody is at the boiler", async () => {
    const { session, happened } = running();
    await session.amend(mend("b"), false);
    expect(happened).toEqual(["stored b"]);
    expect(session.given.value.reply.answer).toBe("b after 0");
  });
  test("that cannot be says why and changes nothing", async () => {
    const { session, happened } = running();
    expect(await session.amend({ kind: "strike", id: "e0" })).toMatchObject({ problem: "Not that." });
    expect([session.visit.value.entries, happened]).toEqual([[], []]);
  });
  test("waits with the held phrases, and goes in order when they are tried again", async () => {
    const { session, happened, disk } = running();
    disk.full = true;
    await session.hear(typed("a"));
    await session.amend(mend("b"), false);
    expect(session.held.incoming.value.map(heldText)).toEqual(["a", "mend"]);
    disk.full = false;
    happened.length = 0;
    await session.retry();
    expect(happened).toEqual(["stored a", "said a after 0", "stored b"]);
  });
});

/** Two windows on one disk: what each stores the other is told of, unless it is deaf. */
function windows() {
  const disk = { visit: visitOf(), gone: false };
  const tell: ((id: string) => void)[] = [];
  const said: string[] = [];
  const open = (name: string, deaf = false) => {
    let ids = 0;
    return new Session(disk.visit, {
      take: (visit, phrase, at) => {
        const seq = visit.entries.length;
        const last = visit.entries.at(-1);
        const body: Entry["body"] =
          phrase.text === "scratch that" && last
            ? { kind: "strike", target: last.id }
            : { kind: "note", text: phrase.text };
        const { text } = phrase;
        const entry: Entry = {
          id: `${name}${ids++}`,
          seq,
          at,
          engine: "typed",
          phrase: text,
          said: text,
          confidence: 1,
          body,
        };
        return {
          entries: [entry],
          visit: { ...visit, entries: [...visit.entries, entry] },
          meaning: { text, items: [], unsure: [] },
          reply: replyTo(text),
          asked: [],
        };
      },
      amend: () => ({ ok: false, problem: "Not that.", candidates: [] }),
      stand: () => replyTo("standing"),
      understand: () => [],
      append: async (_, added) => {
        await new Promise<void>((resolve) => setImmediate(resolve));
        if (disk.gone) throw new Error("gone");
        if (added[0]?.seq !== disk.visit.entries.length) throw new Error("overtaken");
        disk.visit = { ...disk.visit, entries: [...disk.visit.entries, ...added] };
        for (const each of tell) each("v1");
      },
      entriesFrom: async (_, seq) => disk.visit.entries.slice(seq),
      onAdded: (told) => {
        if (!deaf) tell.push(told);
        return () => tell.splice(tell.indexOf(told), 1);
      },
      storeAnew: async (visit) => {
        disk.visit = visit;
        disk.gone = false;
      },
      troubleOf: (error) => {
        const { message } = error as Error;
        return message === "gone" || message === "overtaken" ? message : "other";
      },
      now: () => "2026-11-25T09:00:00.000Z",
      elapsed: () => 0,
      say: (text) => said.push(text),
      keepSound: () => {},
      talk: () => "normal",
      effect: async () => {},
      reason: (error) => (error instanceof Error ? error.message : "?"),
      breathe: async () => {},
    });
  };
  const texts = () => disk.visit.entries.map(({ phrase }) => phrase);
  return { disk, open, texts, said };
}

describe("another window on the same visit", () => {
  test("what it adds comes in, silently, and is counted until something is said here", async () => {
    const { open, said } = windows();
    const [here, there] = [open("a"), open("b")];
    await there.hear(typed("x"));
    await here.takeIn();
    expect(here.visit.value.entries.map(({ phrase }) => phrase)).toEqual(["x"]);
    expect([here.addedElsewhere.value, said]).toEqual([1, ["x"]]);
    await here.hear(typed("y"));
    expect(here.addedElsewhere.value).toBe(0);
  });
  test("a phrase that comes too late is taken anew after it, with the time of then", async () => {
    const { open, texts, disk } = windows();
    const [here, there] = [open("a", true), open("b", true)];
    await there.hear(typed("x"));
    await here.hear(typed("y"));
    expect(texts()).toEqual(["x", "y"]);
    expect(disk.visit.entries.map(({ seq }) => seq)).toEqual([0, 1]);
    expect([here.held.incoming.value, here.addedElsewhere.value]).toEqual([[], 0]);
  });
  test("both at once lose nothing, and each keeps its order", async () => {
    const { open, texts } = windows();
    const [here, there] = [open("a"), open("b")];
    const said = (name: string) => Array.from({ length: 20 }, (_, i) => `${name}${i}`);
    await Promise.all([
      ...said("a").map((text) => here.hear(typed(text))),
      ...said("b").map((text) => there.hear(typed(text))),
    ]);
    expect(texts()).toHaveLength(40);
    for (const name of ["a", "b"])
      expect(texts().filter((text) => text.startsWith(name))).toEqual(said(name));
    await Promise.all([here.takeIn(), there.takeIn()]);
    expect(here.visit.value.entries).toEqual(there.visit.value.entries);
  });
  test("what would change an entry that was not seen here is held, and taken once it was", async () => {
    const { open, texts } = windows();
    const [here, there] = [open("a", true), open("b", true)];
    await here.hear(typed("x"));
    await there.takeIn();
    await there.hear(typed("y"));
    await here.hear(typed("scratch that"));
    expect(here.held.trouble.value).toMatch(/^another window has just added to this visit/);
    expect([here.held.incoming.value.map(heldText), texts()]).toEqual([["scratch that"], ["x", "y"]]);
    await here.retry();
    expect([here.held.incoming.value, texts()]).toEqual([[], ["x", "y", "scratch that"]]);
  });
  test("a window that was left takes in nothing more", async () => {
    const { open } = windows();
    const [here, there] = [open("a"), open("b")];
    here.leave();
    await there.hear(typed("x"));
    expect(here.visit.value.entries).toEqual([]);
  });
});

describe("a visit that is gone from the disk", () => {
  test("is known to be, and stored anew with what was held", async () => {
    const { open, disk, texts } = windows();
    const session = open("a");
    await session.hear(typed("x"));
    disk.gone = true;
    disk.visit = visitOf();
    await session.hear(typed("y"));
    expect([session.held.gone.value, session.held.trouble.value, session.held.incoming.value.length]).toEqual(
      [true, "gone", 1],
    );
    await session.storeAnew();
    expect([texts(), session.held.gone.value, session.held.incoming.value]).toEqual([["x", "y"], false, []]);
  });
});
