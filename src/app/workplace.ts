import { batch, computed, type ReadonlySignal, signal } from "@preact/signals";
import type { Earcon } from "../answer/earcon.ts";
import { talkAfter } from "../answer/talk.ts";
import type { Reply } from "../answer/turn.ts";
import type { Address } from "../device/address.ts";
import type { ClipEncoder } from "../device/clips/encoder.ts";
import type { ClipPlayer } from "../device/clips/player.ts";
import { every } from "../device/clock.ts";
import { download, readBytes } from "../device/files.ts";
import { keepForGood, type Notebook, reasonOf } from "../device/notebook.ts";
import type { Speaker } from "../device/speaker.ts";
import type { Meaning } from "../meaning/item.ts";
import type { Fuel, UnitSystem } from "../measure/firing.ts";
import { exportVisit } from "../record/bundle.ts";
import type { Sheet } from "../visit/sheet.ts";
import type { VisitHead } from "../visit/visit.ts";
import { Afterwards } from "./afterwards.ts";
import { Clips } from "./clips.ts";
import type { Ears } from "./ears.ts";
import { readImport } from "./import-file.ts";
import { Listening, type Understanding } from "./listening.ts";
import type { Place } from "./place.ts";
import { Places } from "./places.ts";
import { Session, type SessionWorld } from "./session.ts";
import { FIRST_SETTINGS, Settings } from "./settings.ts";

/** What the app is made of: adapters and pure functions, chosen in main.tsx. */
export interface Parts {
  readonly address: Address;
  readonly notebook: Notebook;
  readonly speaker: Speaker;
  readonly ears: Ears;
  readonly clipEncoder: ClipEncoder;
  readonly clipPlayer: ClipPlayer;
  readonly understanding: Understanding;
  readonly take: SessionWorld["take"];
  readonly amend: SessionWorld["amend"];
  readonly stand: SessionWorld["stand"];
  readonly understand: SessionWorld["understand"];
  /** The parser, without context. */
  readonly parse: (text: string) => Meaning;
  readonly now: () => string;
  readonly zone: () => string | null;
  readonly newId: () => string;
  /** A pause between pieces of long work. */
  readonly breathe: () => Promise<void>;
  readonly demoSheets: readonly Sheet[];
}

/** One or more sentences to show: what happened, or what went wrong. */
export interface Notice {
  readonly kind: "done" | "problem";
  readonly sentences: readonly string[];
}

/** What is chosen when a visit starts. */
export interface VisitChoice {
  readonly title: string;
  readonly sheet: Sheet | null;
  readonly fuel: Fuel;
  readonly units: UnitSystem;
}

const RUNNING = "running-visit";
const SETTINGS = "settings";
/** How often old sound is looked for: more than once a day, for a device that sleeps stretches the hours. */
const EXPIRY_MS = 60 * 60 * 1000;

/** All that the screens show and all that they can do. Nothing here rejects: what fails becomes a notice. */
export class Workplace {
  readonly session = signal<Session | null>(null);
  readonly visits = signal<readonly VisitHead[]>([]);
  readonly ownSheets = signal<readonly Sheet[]>([]);
  readonly settings = signal<Settings>(FIRST_SETTINGS);
  readonly notice = signal<Notice | null>(null);
  /** Whether the browser promised to keep the notebook; null while nobody asked. */
  readonly kept = signal<boolean | null>(null);
  /** Sheets that can be chosen: the person's own before the demo's. */
  readonly sheets = computed(() => {
    const own = this.ownSheets.value;
    const ids = new Set(own.map((sheet) => sheet.id));
    return [...own, ...this.#parts.demoSheets.filter((sheet) => !ids.has(sheet.id))];
  });
  readonly listening: Listening;
  readonly clips: Clips;
  readonly afterwards: Afterwards;
  readonly #places: Places;
  readonly #parts: Parts;

  constructor(parts: Parts) {
    this.#parts = parts;
    this.#places = new Places(parts.address, (place) => this.#enter(place));
    this.listening = new Listening(
      parts.speaker,
      parts.understanding,
      (phrase) => void this.session.value?.hear(phrase),
      () => this.settings.value.headset,
    );
    this.clips = new Clips({
      shelf: parts.notebook.clips,
      encoder: parts.clipEncoder,
      player: parts.clipPlayer,
      settings: () => this.settings.value,
      settingsKey: SETTINGS,
      now: parts.now,
      sounds: (sounding) => this.listening.sounds("", sounding),
      reason: reasonOf,
    });
    this.afterwards = new Afterwards({
      // Nobody is at the boiler: nothing is said.
      open: (id) => this.#sessionOf(id, () => {}),
      parse: parts.parse,
      understand: parts.understand,
      keepName: (reviewer) => this.changeSettings({ reviewer }),
      breathe: parts.breathe,
    });
  }

  get ears(): Ears {
    return this.#parts.ears;
  }

  /** The screen that is open. */
  get place(): ReadonlySignal<Place> {
    return this.#places.place;
  }

  /** Opens a screen. The boiler is of the visit that was gone on with last. */
  async goTo(place: Place): Promise<void> {
    await this.#places.goTo(place);
  }

  get now(): () => string {
    return this.#parts.now;
  }

  /** Reads what the notebook holds and goes on with the running visit, if there is one. */
  async open(): Promise<void> {
    let instead: Place | null = null;
    await this.#guard(async () => {
      const stored = Settings.safeParse(await this.#parts.notebook.setting(SETTINGS));
      if (stored.success) this.settings.value = stored.data;
      await this.#list();
      if (!this.settings.value.welcomed) instead = { kind: "welcome" };
      // A device that died at the boiler comes up there again.
      if (this.#parts.address.read() === "" && (await this.#running()) !== null) instead = { kind: "boiler" };
    });
    await this.#places.open(instead);
    void this.clips.expire();
    every(EXPIRY_MS, () => void this.clips.expire());
  }

  async startVisit(choice: VisitChoice): Promise<void> {
    await this.#guard(async () => {
      const head: VisitHead = {
        id: this.#parts.newId(),
        title: choice.title,
        startedAt: this.#parts.now(),
        zone: this.#parts.zone(),
        fuel: choice.fuel,
        units: choice.units,
        sheet: choice.sheet,
      };
      await this.#parts.notebook.addVisit({ format: "burnerside-visit/1", head, entries: [] });
      await this.#goOn(head.id);
      await this.changeSettings({ units: choice.units });
      if (this.kept.value === null) this.kept.value = await keepForGood();
    });
  }

  /** Goes on with an earlier visit. */
  async goOn(id: string): Promise<void> {
    await this.#guard(() => this.#goOn(id));
  }

  /** Leaves the boiler; the visit stays in the notebook as it is. */
  async leave(): Promise<void> {
    await this.#guard(() => this.#parts.notebook.keepSetting(RUNNING, null));
    await this.goTo({ kind: "start" });
  }

  /** Hands over a visit as a JSON file. */
  async exportVisit(id: string): Promise<void> {
    await this.#guard(async () => {
      const visit = await this.#parts.notebook.visit(id);
      const day = visit.head.startedAt.slice(0, 10);
      download(`burnerside-visit-${day}-${id.slice(0, 8)}.json`, exportVisit(visit));
    });
  }

  /** Takes in a limits sheet or a visit bundle; a bad file changes nothing that is stored. */
  async importFile(file: File): Promise<void> {
    await this.#guard(async () => {
      const imported = readImport(file.name, await readBytes(file));
      switch (imported.kind) {
        case "bad":
          this.notice.value = { kind: "problem", sentences: imported.sentences };
          return;
        case "sheet":
          await this.#parts.notebook.keepSheet(imported.sheet);
          this.notice.value = { kind: "done", sentences: [`Limits sheet kept: ${imported.sheet.title}.`] };
          break;
        case "visit":
          await this.#parts.notebook.addVisit(imported.visit);
          this.notice.value = { kind: "done", sentences: [`Visit kept: ${titleOf(imported.visit.head)}.`] };
          break;
      }
      await this.#list();
    });
  }

  async changeSettings(change: Partial<Settings>): Promise<void> {
    await this.#guard(async () => {
      const { notebook } = this.#parts;
      // Another window may have changed something else, such as that no sound is kept.
      const stored = Settings.safeParse(await notebook.setting(SETTINGS));
      const settings = { ...(stored.success ? stored.data : this.settings.value), ...change };
      // Off means none: that nothing is kept and that all is gone are stored as one.
      await (settings.keepClips
        ? notebook.keepSetting(SETTINGS, settings)
        : notebook.clips.dropAll(SETTINGS, settings));
      this.settings.value = settings;
    });
  }

  /** Starts the chosen ear. */
  async listen(): Promise<void> {
    const { ear, platformMaySend } = this.settings.value;
    const { ears } = this.#parts;
    await this.listening.start(() => (ear === "offline" ? ears.offline() : ears.platform(platformMaySend)));
    if (ear === "offline") this.clips.prepare();
  }

  /** Starts or stops the chosen ear: what a tap on the light does, and the headset's button. */
  async switchEar(): Promise<void> {
    const { kind } = this.listening.state.value;
    await (kind === "listening" || kind === "loading" ? this.listening.stop() : this.listen());
  }

  /** Hands a typed phrase to the running visit. */
  async type(text: string): Promise<void> {
    await this.session.value?.hear({ text, engine: "typed", confidence: 1, sound: null });
  }

  async #goOn(id: string): Promise<void> {
    await this.#parts.notebook.keepSetting(RUNNING, id);
    await this.goTo({ kind: "boiler" });
  }

  /** The id of the visit that was gone on with last and not left; null where there is none. */
  async #running(): Promise<string | null> {
    const id = await this.#parts.notebook.setting(RUNNING);
    return typeof id === "string" ? id : null;
  }

  async #lookThrough(id: string): Promise<void> {
    await this.afterwards.open(id);
    await this.clips.open(id);
  }

  /** Opens the running visit for the boiler, closes it for every other place; where that fails the start is shown. */
  async #enter(place: Place): Promise<Place> {
    let shown: Place = { kind: "start" };
    await this.#guard(async () => {
      if (this.afterwards.session.value) {
        this.afterwards.close();
        await this.clips.open(null);
      }
      if (place.kind === "boiler") {
        const id = await this.#running();
        if (id === null) return;
        if (this.session.value?.visit.value.head.id !== id) await this.#resume(id);
      } else if (this.session.value) {
        await this.#close();
      }
      if (place.kind === "afterwards") await this.#lookThrough(place.visitId);
      shown = place;
    });
    return shown;
  }

  async #close(): Promise<void> {
    this.listening.hush();
    await this.listening.stop();
    this.session.value?.leave();
    this.session.value = null;
    await this.clips.open(null);
    await this.#list();
  }

  async #resume(id: string): Promise<void> {
    const session = await this.#sessionOf(id, (text) => {
      this.clips.stop();
      void this.listening.say(text, earconFor(session.given.value.reply, text));
    });
    await this.clips.open(id);
    batch(() => {
      this.session.value = session;
      this.notice.value = null;
    });
  }

  async #sessionOf(id: string, say: SessionWorld["say"]): Promise<Session> {
    const { notebook, take, amend, stand, understand, now, breathe } = this.#parts;
    return Session.open(await notebook.visit(id), {
      take,
      amend,
      stand,
      understand,
      append: (visitId, entries) => notebook.append(visitId, entries),
      now,
      say,
      keepSound: (visitId, first, sound) => void this.clips.keep(visitId, first, sound),
      talk: () => this.settings.value.talk,
      effect: (effect) => this.#do(effect),
      reason: reasonOf,
      breathe,
    });
  }

  async #do(effect: Reply["effect"]): Promise<void> {
    switch (effect) {
      case "none":
        return;
      case "stop-listening":
        void this.listening.stop();
        return;
      case "less-talk":
      case "more-talk":
        await this.changeSettings({ talk: talkAfter(this.settings.value.talk, effect) });
        return;
    }
  }

  async #list(): Promise<void> {
    const [visits, sheets] = await Promise.all([
      this.#parts.notebook.visits(),
      this.#parts.notebook.sheets(),
    ]);
    const problems = [...visits.problems, ...sheets.problems];
    batch(() => {
      this.visits.value = visits.whole;
      this.ownSheets.value = sheets.whole;
      if (problems.length > 0) this.notice.value = { kind: "problem", sentences: problems };
    });
  }

  async #guard(work: () => Promise<void>): Promise<void> {
    try {
      await work();
    } catch (error) {
      this.notice.value = { kind: "problem", sentences: [`${reasonOf(error)}.`] };
    }
  }
}

/** The tone of the reply; what is told unasked ("Ready", "Not saved") wants the technician's hands or eyes, or is a stop. */
function earconFor({ answer, earcon, judgement }: Reply, text: string): Earcon {
  if (text === answer) return earcon;
  return judgement.advice.action === "stop" ? "warning" : "asking";
}

/** A visit's name in lists. */
export function titleOf(head: VisitHead): string {
  return head.title || head.sheet?.title || "Visit without a sheet";
}
