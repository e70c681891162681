import { batch, type Signal, signal } from "@preact/signals";
import type { Talkativeness } from "../../answer/talk.ts";
import type { Amending, Reply, Turn } from "../../answer/turn.ts";
import { NO_WARNINGS, type Warned, warned, warnedAlong, warnedIn } from "../../judge/raised.ts";
import type { Phrase } from "../../meaning/heard.ts";
import { epochMs } from "../../measure/instant.ts";
import type { Amendment } from "../../visit/by-hand.ts";
import type { Entry } from "../../visit/entry.ts";
import { foldVisit } from "../../visit/fold.ts";
import type { VisitState } from "../../visit/state.ts";
import type { Visit } from "../../visit/visit.ts";
import { type HeardPhrase, lastHeard, type Understand } from "./heard-phrase.ts";
import { readySaid, type Wait, waitIn } from "./ready.ts";

/** What a running visit needs of the world. */
export interface SessionWorld {
  readonly take: (
    visit: Visit,
    phrase: Phrase,
    now: string,
    talk: Talkativeness,
    asked: Turn["asked"],
  ) => Turn;
  readonly amend: (visit: Visit, amendment: Amendment, now: string, talk: Talkativeness) => Amending;
  readonly stand: (visit: Visit, now: string, talk: Talkativeness) => Reply;
  /** The stretches of a phrase that were understood where the visit stood like this. */
  readonly understand: Understand;
  /** Resolves when the entries are on the disk; rejects when nothing was stored. */
  readonly append: (visitId: string, entries: readonly Entry[]) => Promise<void>;
  readonly now: () => string;
  readonly say: (text: string) => void;
  /** Keeps the sound beside the first of the stored entries that it gave. Returns at once and never throws. */
  readonly keepSound: (visitId: string, first: Entry, sound: Float32Array) => void;
  /** How much is said now. */
  readonly talk: () => Talkativeness;
  /** Never rejects. The next phrase is taken when it is done. */
  readonly effect: (effect: Reply["effect"]) => Promise<void>;
  /** Why a write failed, without a full stop. */
  readonly reason: (error: unknown) => string;
  /** A pause between pieces of long work. Never rejects. */
  readonly breathe: () => Promise<void>;
}

/** How a visit stands when it is opened, and its warnings, gone through so far. */
interface Standing extends Pick<Given, "reply"> {
  readonly heard: HeardPhrase | null;
  readonly along: Along;
}

/** The warnings of a visit up to an utterance, and those after each that comes. */
interface Along {
  readonly so: Warned;
  readonly rest: Iterator<Warned, undefined>;
}

/** The warnings of so many utterances are gone through before a visit is shown; the rest of a long one beside the work. */
const AT_ONCE = 60;

/** What was logged since a visit was opened, for the warnings. */
type Since = Parameters<typeof warned> extends [Warned, ...infer Rest] ? Rest : never;

/** A phrase or a correction by hand that came in, and when. */
export type Incoming = { readonly at: string } & (
  | { readonly phrase: Phrase }
  | { readonly amendment: Amendment; readonly aloud: boolean }
);

/** Why a correction by hand cannot be, and what may have been meant; null where it was taken, or is held. */
export type Refusal = Extract<Amending, { ok: false }> | null;

/** A reply and when it was given: a wait counts from then. */
export interface Given {
  readonly reply: Reply;
  readonly at: string;
}

/**
 * A running visit. Phrases are taken one after the other: understood, stored, and only then answered. Where storing
 * fails, that phrase and all after it are held, unanswered, until the person tries again or drops them: taking a
 * later phrase first would make "scratch that" strike the wrong entry.
 */
export class Session {
  readonly visit: Signal<Visit>;
  /** `visit` folded. */
  readonly state: Signal<VisitState>;
  /** The warnings so far, and whether they were acknowledged; until `caughtUp`, those since the visit was opened. */
  readonly warned = signal(NO_WARNINGS);
  /** Resolves when the warnings of a long visit were gone through. Never rejects. */
  readonly caughtUp: Promise<void>;
  /** The settle time that runs. */
  readonly wait: Signal<Wait>;
  readonly given: Signal<Given>;
  readonly held = signal<readonly Incoming[]>([]);
  /** Why the held phrases are not saved; null where there are none. */
  readonly trouble = signal<string | null>(null);
  /** The last phrase, whether or not it was for the log; null before the first. */
  readonly heard: Signal<HeardPhrase | null>;
  /** How many phrases are still being taken. */
  readonly pending = signal(0);
  readonly #world: SessionWorld;
  #asked: Turn["asked"] = [];
  /** What was logged while the warnings before it were not gone through yet; null after that. */
  #since: Since[] | null = [];
  #left = false;
  /** Never rejects. */
  #work: Promise<void> = Promise.resolve();

  constructor(visit: Visit, world: SessionWorld, standing?: Standing) {
    const at = world.now();
    this.#world = world;
    const state = foldVisit(visit);
    this.visit = signal(visit);
    this.state = signal(state);
    this.wait = signal(waitIn({ until: null, told: null }, state, at));
    const { reply, heard, along } = standing ?? {
      reply: world.stand(visit, at, world.talk()),
      heard: lastHeard(visit, world.understand),
      along: { so: warnedIn(visit), rest: [].values() },
    };
    this.given = signal<Given>({ reply, at });
    this.heard = signal(heard);
    this.caughtUp = this.#catchUp(along);
  }

  /** The same in small pieces, so that a long visit holds nothing up. */
  static async open(visit: Visit, world: SessionWorld): Promise<Session> {
    await world.breathe();
    foldVisit(visit);
    const rest = warnedAlong(visit);
    let so = NO_WARNINGS;
    for (let utterances = 0; utterances < AT_ONCE; utterances += 1) {
      await world.breathe();
      so = rest.next().value ?? so;
    }
    await world.breathe();
    const reply = world.stand(visit, world.now(), world.talk());
    await world.breathe();
    const heard = lastHeard(visit, world.understand);
    await world.breathe();
    return new Session(visit, world, { reply, heard, along: { so, rest } });
  }

  /** Nothing more is wanted of this session. */
  leave(): void {
    this.#left = true;
  }

  async #catchUp({ so, rest }: Along): Promise<void> {
    let last = so;
    for (let next = rest.next(); !next.done; next = rest.next()) {
      last = next.value;
      // What is said now goes before what was said then.
      while (this.pending.value > 0) await this.#work;
      await this.#world.breathe();
      if (this.#left) return;
    }
    this.warned.value = (this.#since ?? []).reduce((before, since) => warned(before, ...since), last);
    this.#since = null;
  }

  /** Takes one phrase, after those before it. Resolves when it has been answered or held; rejects when answering it broke. */
  async hear(phrase: Phrase): Promise<void> {
    await this.#enqueue({ phrase, at: this.#world.now() });
  }

  /**
   * Takes one correction by hand in its turn, as a phrase is taken; `aloud` says whether its answer is spoken. Resolves with
   * the reason where it cannot be, which changes nothing.
   */
  amend(amendment: Amendment, aloud = true): Promise<Refusal> {
    return this.#enqueue({ amendment, aloud, at: this.#world.now() });
  }

  /** Takes the held phrases once more, in order. */
  async retry(): Promise<void> {
    const again = this.held.value;
    this.#release();
    await Promise.all(again.map((incoming) => this.#enqueue(incoming)));
  }

  /** Forgets the held phrases. */
  drop(): void {
    this.#release();
  }

  /** Tells, once, that the wait is over, and shows where the visit stands then. Before its end nothing happens. */
  ready(): void {
    const { until } = this.wait.value;
    const at = this.#world.now();
    if (until === null || epochMs(at) < epochMs(until)) return;
    const talk = this.#world.talk();
    const reply = this.#world.stand(this.visit.value, at, talk);
    batch(() => {
      this.wait.value = { until: null, told: until };
      this.given.value = { reply, at };
      this.#forgetTalk();
    });
    this.#world.say(readySaid(this.state.value, reply.judgement, talk));
  }

  /** What was not for the log is over once something new stands on the screen. */
  #forgetTalk(): void {
    if (this.heard.value?.answered === false)
      this.heard.value = lastHeard(this.visit.value, this.#world.understand);
  }

  #release(): void {
    batch(() => {
      this.held.value = [];
      this.trouble.value = null;
    });
  }

  #enqueue(incoming: Incoming): Promise<Refusal> {
    this.pending.value += 1;
    const taken = this.#work
      .then(() => this.#take(incoming))
      .finally(() => {
        this.pending.value -= 1;
      });
    // What breaks is told to who said this phrase; the next one is taken all the same.
    this.#work = taken.then(
      () => {},
      () => {},
    );
    return taken;
  }

  async #take(incoming: Incoming): Promise<Refusal> {
    if (this.held.value.length > 0) {
      this.held.value = [...this.held.value, incoming];
      return null;
    }
    const taken = await this.#store(incoming);
    if (!taken) return null;
    if (!taken.ok) return taken;
    const { turn } = taken;
    const { entries, reply } = turn;
    const answered = entries.length > 0 || reply.answer !== "";
    const heard = "phrase" in incoming ? this.#heardAs(incoming.phrase, entries, answered) : this.heard.value;
    this.#asked = taken.asked;
    // What stands on the screen stays there while people talk of other things.
    if ("phrase" in incoming && !answered) {
      this.heard.value = heard;
      return null;
    }
    const state = foldVisit(turn.visit);
    await this.#world.breathe();
    // At one go: meanwhile the warnings before may be caught up with.
    batch(() => {
      this.visit.value = turn.visit;
      this.state.value = state;
      if (entries.length > 0) {
        this.warned.value = warned(this.warned.value, state, entries, incoming.at);
        this.#since?.push([state, entries, incoming.at]);
      }
      this.wait.value = waitIn(this.wait.value, state, incoming.at);
      this.given.value = { reply, at: incoming.at };
      this.heard.value = heard;
      if ("amendment" in incoming) this.#forgetTalk();
    });
    await this.#world.breathe();
    if (reply.answer !== "" && ("phrase" in incoming || incoming.aloud)) this.#world.say(reply.answer);
    const [first] = entries;
    const sound = "phrase" in incoming ? incoming.phrase.sound : null;
    if (first && sound) this.#world.keepSound(turn.visit.head.id, first, sound);
    await this.#world.effect(reply.effect);
    return null;
  }

  #heardAs({ text }: Phrase, entries: readonly Entry[], answered: boolean): HeardPhrase {
    const stretches = this.#world.understand(text, this.state.value);
    return { text, stretches, entries: entries.map(({ id }) => id), answered };
  }

  /** Stores what comes of it; null where the disk took nothing and it is held. */
  async #store(incoming: Incoming): Promise<Taken | Extract<Amending, { ok: false }> | null> {
    try {
      const taken = this.#understand(incoming);
      if (taken.ok) await this.#world.append(taken.turn.visit.head.id, taken.turn.entries);
      return taken;
    } catch (error) {
      batch(() => {
        this.held.value = [incoming];
        this.trouble.value = this.#world.reason(error);
      });
      this.#world.say("Not saved. Look at the screen.");
      return null;
    }
  }

  #understand(incoming: Incoming): Taken | Extract<Amending, { ok: false }> {
    const talk = this.#world.talk();
    const visit = this.visit.value;
    if ("amendment" in incoming) {
      const amending = this.#world.amend(visit, incoming.amendment, incoming.at, talk);
      return amending.ok ? { ...amending, asked: [] } : amending;
    }
    const turn = this.#world.take(visit, incoming.phrase, incoming.at, talk, this.#asked);
    return { ok: true, turn, asked: turn.asked };
  }
}

/** What was understood and is to be stored, and which commands "repeat" is then of. */
interface Taken {
  readonly ok: true;
  readonly turn: Pick<Turn, "entries" | "visit" | "reply">;
  readonly asked: Turn["asked"];
}
