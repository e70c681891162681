import { batch, signal } from "@preact/signals";
import type { Verdict } from "../../judge/judgement.ts";
import { replay } from "../../judge/replay.ts";
import { situationOf } from "../../judge/situation.ts";
import { verdictOf } from "../../judge/verdict.ts";
import type { Meaning } from "../../meaning/item.ts";
import type { Stretch } from "../../meaning/parser.ts";
import { stateBefore } from "../../visit/before.ts";
import type { Amendment } from "../../visit/by-hand.ts";
import type { Entry } from "../../visit/entry.ts";
import type { Utterance } from "../../visit/utterances.ts";
import type { Understand } from "../boiler/heard-phrase.ts";
import type { Session } from "../boiler/session.ts";
import type { Refusal } from "../boiler/session-world.ts";
import type { Signed } from "../safekeeping/signing.ts";
import { type Pick, rivalsOf } from "./rivals.ts";

/** What looking a visit through needs of the world. */
export interface AfterwardsWorld {
  /** Opens a visit that speaks nothing. */
  readonly open: (visitId: string) => Promise<Session>;
  /** The parser, without context. */
  readonly parse: (text: string) => Meaning;
  readonly understand: Understand;
  /** Keeps the name for the next review. Never rejects. */
  readonly keepName: (name: string) => Promise<void>;
  /** What can be said of its log; rejects where it cannot be read. */
  readonly look: (visitId: string) => Promise<Signed>;
  /** A pause between pieces of long work. */
  readonly breathe: () => Promise<void>;
}

/** A visit that is looked through: its session, and what each of its readings was judged when it came. */
export class Afterwards {
  readonly session = signal<Session | null>(null);
  /** As judged then, by the id of the entry that brought the reading or mended it. */
  readonly verdicts = signal<ReadonlyMap<string, Verdict>>(new Map());
  /** Whether the whole visit was gone through, so that `verdicts` are complete. */
  readonly judged = signal(false);
  /** That its log was altered, and where; "" where it was not, or where that is not known yet. */
  readonly altered = signal("");
  /** Whether only what needs a look is shown. */
  readonly onlyNeeds = signal(false);
  readonly #world: AfterwardsWorld;
  readonly #rivals = new WeakMap<Entry, readonly Pick[]>();
  readonly #stretches = new WeakMap<Entry, readonly Stretch[]>();
  /** Understanding goes one phrase after the other. Never rejects. */
  #reading: Promise<void> = Promise.resolve();

  constructor(world: AfterwardsWorld) {
    this.#world = world;
  }

  /** Opens a visit; what its readings were judged then is worked out beside the work. Rejects where it cannot be read. */
  async open(visitId: string): Promise<void> {
    this.close();
    const session = await this.#world.open(visitId);
    batch(() => {
      this.session.value = session;
      this.verdicts.value = new Map();
      this.judged.value = false;
      this.altered.value = "";
      this.onlyNeeds.value = false;
    });
    void this.#replay(session);
    void this.#examine(visitId, session);
  }

  close(): void {
    this.session.value?.leave();
    this.session.value = null;
  }

  /** Takes a correction; resolves with the reason where it cannot be. */
  async amend(amendment: Amendment): Promise<Refusal> {
    const session = this.session.value;
    if (!session) return null;
    const before = session.visit.value.entries.length;
    const refusal = await session.amend(amendment, false);
    const since = session.visit.value.entries.slice(before);
    const [first] = since;
    if (first) {
      const s = situationOf(session.state.value, since, first.at);
      const fresh = byEntry(since, new Map(s.fresh.map((r) => [r.id, verdictOf(s, r)])));
      this.verdicts.value = new Map([...this.verdicts.value, ...fresh]);
    }
    if (amendment.kind === "review" && !refusal) await this.#world.keepName(amendment.by.trim());
    return refusal;
  }

  /** What else an entry may have been, for the ear. */
  readonly rivals = (entry: Entry, together: readonly Entry[]): readonly Pick[] => {
    if (!entry.rivals) return [];
    const found = this.#rivals.get(entry) ?? rivalsOf(entry, together, this.#world.parse);
    this.#rivals.set(entry, found);
    return found;
  };

  /** The stretches of a phrase that were understood, where they are known already. */
  stretchesKnown([first]: Utterance): readonly Stretch[] | null {
    return this.#stretches.get(first) ?? null;
  }

  /** The same, worked out when its turn comes. */
  async stretches(together: Utterance): Promise<readonly Stretch[]> {
    const [first] = together;
    const session = this.session.value;
    this.#reading = this.#reading.then(async () => {
      if (!session || this.#stretches.has(first)) return;
      await this.#world.breathe();
      const before = stateBefore(session.state.value, first.seq);
      this.#stretches.set(first, this.#world.understand(first.phrase, before));
    });
    await this.#reading;
    return this.#stretches.get(first) ?? [];
  }

  /** Nobody should find a visit right and not know that it was changed on the way. */
  async #examine(visitId: string, session: Session): Promise<void> {
    try {
      const { visit, ...examined } = await this.#world.look(visitId);
      // Words of a log that is not altered would be worked out, and loaded, for nothing: of a long one that holds the page up.
      if (examined.finding?.kind !== "altered") return;
      const [{ logWords }, { alteredNotice }] = await Promise.all([
        import("../../record/integrity/words.ts"),
        import("../../record/report/log.ts"),
      ]);
      if (this.session.value === session) this.altered.value = alteredNotice(logWords(visit, examined));
    } catch {
      // One that cannot be read any more is told by what is done with it.
    }
  }

  async #replay(session: Session): Promise<void> {
    const verdicts = new Map<string, Verdict>();
    for (const { since, verdicts: fresh } of replay(session.visit.value)) {
      for (const [id, verdict] of byEntry(since, fresh)) verdicts.set(id, verdict);
      await this.#world.breathe();
      if (this.session.value !== session) return;
    }
    batch(() => {
      // Those that are known already are of corrections made meanwhile.
      this.verdicts.value = new Map([...verdicts, ...this.verdicts.value]);
      this.judged.value = true;
    });
  }
}

/** Verdicts by the entry that brought the reading or mended it. */
function byEntry(
  since: readonly Entry[],
  verdicts: ReadonlyMap<string, Verdict>,
): (readonly [string, Verdict])[] {
  return since.flatMap(({ id, body }) => {
    const verdict = verdicts.get(body.kind === "replace" ? body.target : id);
    return verdict ? [[id, verdict] as const] : [];
  });
}
