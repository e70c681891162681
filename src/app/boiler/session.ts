import { batch, type Signal, signal } from "@preact/signals";
import type { Reply, Turn } from "../../answer/turn.ts";
import { warnedIn } from "../../judge/raised.ts";
import type { Phrase } from "../../meaning/heard.ts";
import type { Meaning } from "../../meaning/item.ts";
import { epochMs } from "../../measure/instant.ts";
import type { Amendment } from "../../visit/by-hand.ts";
import type { Entry } from "../../visit/entry.ts";
import { foldVisit, withEntries } from "../../visit/fold.ts";
import type { VisitState } from "../../visit/state.ts";
import { utterancesOf } from "../../visit/utterances.ts";
import type { Visit } from "../../visit/visit.ts";
import { type HeardPhrase, lastHeard } from "./heard-phrase.ts";
import { Held, type Unsaved, type Unstored } from "./held.ts";
import { readySaid } from "./ready.ts";
import type { Incoming, Refusal, SessionWorld } from "./session-world.ts";
import { changesAny, understood } from "./taken.ts";
import { Waiting } from "./waiting.ts";
import { type Along, begunAlong, WarnedSoFar } from "./warned-so-far.ts";
import { CLOCK_SET, NOT_SAVED, UNSEEN } from "./wording.ts";

/** How a visit stands when it is opened, and its warnings, gone through so far. */
interface Standing extends Pick<Given, "reply"> {
  readonly heard: HeardPhrase | null;
  readonly along: Along;
}

/** A reply and when it was given: a wait counts from then. */
export interface Given {
  readonly reply: Reply;
  readonly at: string;
}

/**
 * A running visit. Phrases are taken one after the other: understood, stored, and only then answered. Where storing
 * fails, that phrase and all after it are held, unanswered but for warnings, until the person tries again or drops them: taking
 * a later phrase first would make "scratch that" strike the wrong entry.
 */
export class Session {
  readonly visit: Signal<Visit>;
  /** `visit` folded. */
  readonly state: Signal<VisitState>;
  readonly warned: WarnedSoFar["shown"];
  /** Resolves when the warnings of a long visit were gone through. Never rejects. */
  readonly caughtUp: Promise<void>;
  readonly wait: Waiting["wait"];
  readonly clockSet: Waiting["clockSet"];
  readonly given: Signal<Given>;
  /** What came of the answer since, shown in its place: a value that was left, key words that are not heard. */
  readonly told = signal<string | null>(null);
  /** What could not be stored, and why. */
  readonly held = new Held();
  /** How many entries another window has added since the last phrase of this one. */
  readonly addedElsewhere = signal(0);
  /** The last phrase, whether or not it was for the log; null before the first. */
  readonly heard: Signal<HeardPhrase | null>;
  /** How many phrases are still being taken. */
  readonly pending = signal(0);
  readonly #world: SessionWorld;
  #asked: Turn["asked"] = [];
  readonly #warnings = new WarnedSoFar();
  readonly #waiting: Waiting;
  #left = false;
  readonly #stopListening: () => void;
  /** Never rejects. */
  #work: Promise<void> = Promise.resolve();

  constructor(visit: Visit, world: SessionWorld, standing?: Standing) {
    const at = world.now();
    this.#world = world;
    const state = foldVisit(visit);
    this.visit = signal(visit);
    this.state = signal(state);
    this.warned = this.#warnings.shown;
    this.#waiting = new Waiting(() => ({ now: world.now(), elapsed: world.elapsed() }));
    this.#waiting.stands(state);
    this.wait = this.#waiting.wait;
    this.clockSet = this.#waiting.clockSet;
    const { reply, heard, along } = standing ?? {
      reply: world.stand(visit, at, world.talk()),
      heard: lastHeard(visit, world.understand),
      along: { so: warnedIn(visit), rest: [].values() },
    };
    this.given = signal<Given>({ reply, at });
    this.heard = signal(heard);
    this.caughtUp = this.#warnings.catchUp(along, async () => {
      // What is said now goes before what was said then.
      while (this.pending.value > 0) await this.#work;
      await world.breathe();
      return !this.#left;
    });
    this.#stopListening = world.onAdded((visitId) => {
      if (visitId === visit.head.id) void this.takeIn();
    });
  }

  /** The same in small pieces, so that a long visit holds nothing up. */
  static async open(visit: Visit, world: SessionWorld): Promise<Session> {
    await world.breathe();
    foldVisit(visit);
    const along = await begunAlong(visit, world.breathe);
    await world.breathe();
    const reply = world.stand(visit, world.now(), world.talk());
    await world.breathe();
    const heard = lastHeard(visit, world.understand);
    await world.breathe();
    return new Session(visit, world, { reply, heard, along });
  }

  /** Nothing more is wanted of this session. */
  leave(): void {
    this.#left = true;
    this.#stopListening();
  }

  /** Takes in, after the phrases before, what another window has added. Never rejects: failing that, the next phrase does it. */
  async takeIn(): Promise<void> {
    const taken = this.#work
      .then(() => this.#takeIn())
      .then(
        () => {},
        () => {},
      );
    this.#work = taken;
    await taken;
  }

  /** Stores a visit anew that is gone from the disk, and takes the held phrases once more. */
  async storeAnew(): Promise<void> {
    try {
      await this.#world.storeAnew(this.visit.value);
    } catch (error) {
      this.held.trouble.value = this.#world.reason(error);
      return;
    }
    await this.retry();
  }

  /** Takes one phrase, after those before it. Resolves when it has been answered or held; rejects when answering it broke. */
  async hear(phrase: Phrase): Promise<void> {
    await this.#enqueue({ phrase, at: this.#world.now() });
  }

  /** What a phrase would mean now. Nothing is stored. */
  meaning(phrase: Phrase): Meaning {
    const { take, now, talk } = this.#world;
    return take(this.visit.value, phrase, now(), talk(), this.#asked).meaning;
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
    // After what another window has added they have the time of now: they stand behind it.
    const at = this.addedElsewhere.value > 0 ? this.#world.now() : null;
    const again = this.held.release().map((held) => (at === null ? held : { ...held, at }));
    await Promise.all(again.map((incoming) => this.#enqueue(incoming)));
  }

  /** Forgets the held phrases. */
  drop(): void {
    this.held.release();
  }

  /** Tells, once, that the wait is over, and shows where the visit stands then. Before its end nothing happens. */
  ready(): void {
    const { until } = this.wait.value;
    if (until === null) return;
    if (this.#waiting.wasSet()) this.#world.say(CLOCK_SET);
    if (this.left() > 0) return;
    // It is over, whatever a clock that was set back says.
    const at = later(until, this.#world.now());
    const talk = this.#world.talk();
    const reply = this.#world.stand(this.visit.value, at, talk);
    batch(() => {
      this.#waiting.isTold();
      this.given.value = { reply, at };
      this.#forgetTalk();
    });
    this.#world.say(readySaid(this.state.value, reply.judgement, talk));
  }

  /** Milliseconds for which the settle time still runs; 0 or less where none does. */
  left(): number {
    return this.#waiting.left();
  }

  /** What was not for the log is over once something new stands on the screen. */
  #forgetTalk(): void {
    if (this.heard.value?.answered === false)
      this.heard.value = lastHeard(this.visit.value, this.#world.understand);
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

  async #take(came: Incoming): Promise<Refusal> {
    if (this.held.incoming.value.length > 0) {
      this.#hold(came);
      return null;
    }
    const taken = await this.#store(came);
    if (!taken) return null;
    if (!taken.ok) return taken;
    const { turn, incoming } = taken;
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
      if (entries.length > 0) this.#warnings.add(state, entries, incoming.at);
      this.#waiting.stands(state);
      this.given.value = { reply, at: incoming.at };
      this.told.value = null;
      this.heard.value = heard;
      this.addedElsewhere.value = 0;
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

  /**
   * Stores what comes of it; null where the disk took nothing and it is held. Where another window was first, that is taken
   * in and this is taken anew, after it. What would change what it added is held: nobody here has seen that yet.
   */
  async #store(came: Incoming): Promise<ReturnType<typeof understood> | null> {
    const others = new Set<string>();
    let incoming = came;
    for (;;) {
      try {
        const taken = this.#understand(incoming);
        if (!taken.ok) return taken;
        if ("phrase" in incoming && changesAny(taken.turn.entries, others)) throw new Error(UNSEEN);
        await this.#world.append(taken.turn.visit.head.id, taken.turn.entries);
        return taken;
      } catch (error) {
        const trouble = this.#world.troubleOf(error);
        if (trouble === "overtaken" && (await this.#takeInFor(others))) {
          incoming = { ...came, at: this.#world.now() };
          continue;
        }
        this.#hold(incoming, { reason: this.#world.reason(error), gone: trouble === "gone" });
        return null;
      }
    }
  }

  /** Holds what cannot be stored now; the first is told to be, and what could kill or hurt is said of each. */
  #hold(incoming: Incoming, unsaved?: Unsaved): void {
    const { warnings } = this.given.value.reply.judgement;
    const warned = this.held.add(incoming, this.#unstored(incoming), warnings, unsaved);
    if (unsaved || warned !== "") this.#world.say(`${warned} ${NOT_SAVED}`.trim());
  }

  /** What would have come of it, behind what is held already. */
  #unstored(incoming: Incoming): Unstored {
    try {
      const taken = this.#understand(incoming, this.held.visit ?? this.visit.value);
      return taken.ok ? taken.turn : null;
    } catch {
      // What broke is told as the reason why it is held.
      return null;
    }
  }

  /** Whether there was anything to take in; its ids are added to `ids`. */
  async #takeInFor(ids: Set<string>): Promise<boolean> {
    try {
      const more = await this.#takeIn();
      for (const { id } of more) ids.add(id);
      return more.length > 0;
    } catch {
      return false;
    }
  }

  /** Takes in what another window has added, and shows where the visit stands with it. Rejects where it cannot be read. */
  async #takeIn(): Promise<readonly Entry[]> {
    const world = this.#world;
    const before = this.visit.value;
    const more = await world.entriesFrom(before.head.id, before.entries.length);
    if (more.length === 0) return more;
    const now = world.now();
    let visit = before;
    this.#asked = [];
    batch(() => {
      for (const since of utterancesOf(more)) {
        visit = withEntries(visit, since);
        this.#warnings.add(foldVisit(visit), since, since[0].at);
      }
      this.visit.value = visit;
      this.state.value = foldVisit(visit);
      this.#waiting.stands(foldVisit(visit));
      this.given.value = { reply: world.stand(visit, now, world.talk()), at: now };
      this.heard.value = lastHeard(visit, world.understand);
      this.addedElsewhere.value += more.length;
    });
    return more;
  }

  #understand(incoming: Incoming, visit = this.visit.value): ReturnType<typeof understood> {
    return understood(this.#world, visit, incoming, this.#asked);
  }
}

function later(a: string, b: string): string {
  return epochMs(a) < epochMs(b) ? b : a;
}
