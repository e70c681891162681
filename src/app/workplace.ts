import { batch, computed, type ReadonlySignal, signal } from "@preact/signals";
import type { Earcon } from "../answer/earcon.ts";
import { talkAfter } from "../answer/talk.ts";
import type { Reply } from "../answer/turn.ts";
import type { Address } from "../device/address.ts";
import type { ClipEncoder } from "../device/clips/encoder.ts";
import type { ClipPlayer } from "../device/clips/player.ts";
import { every } from "../device/clock.ts";
import type { Ear } from "../device/ears/ear.ts";
import { download } from "../device/files.ts";
import { type Notebook, reasonOf } from "../device/notebook.ts";
import type { Speaker } from "../device/speaker.ts";
import type { Sheet } from "../visit/sheet.ts";
import type { VisitHead } from "../visit/visit.ts";
import type { Afterwards } from "./afterwards.ts";
import { Clips } from "./clips.ts";
import type { Ears, Tongue } from "./ears.ts";
import type { Installed } from "./installed.ts";
import { Intake } from "./intake.ts";
import { Listening } from "./listening.ts";
import { MicrophoneCheck } from "./microphone-check.ts";
import type { Mind } from "./mind.ts";
import type { Place } from "./place.ts";
import { Places } from "./places.ts";
import type { Session, SessionWorld } from "./session.ts";
import { FIRST_SETTINGS, Settings } from "./settings.ts";
import { sheetRows } from "./sheet-order.ts";
import { SheetShelf } from "./sheet-shelf.ts";
import type { StartChoice } from "./start-choice.ts";
import { type DeskWorld, StartDesk } from "./start-desk.ts";
import { VisitSummaries } from "./visit-summaries.ts";
import { isoDay } from "./wording.ts";

export { titleOf } from "./visit-title.ts";

/** What the app is made of: adapters and pure functions, chosen in main.tsx. */
export interface Parts {
  readonly address: Address;
  readonly notebook: Notebook;
  readonly speaker: Speaker;
  readonly ears: Ears;
  readonly clipEncoder: ClipEncoder;
  readonly clipPlayer: ClipPlayer;
  /** Loaded with the first visit, or the first ear; the same each time. */
  readonly mind: () => Promise<Mind>;
  readonly installed: Installed;
  readonly now: () => string;
  readonly zone: () => string | null;
  readonly newId: () => string;
  /** A pause between pieces of long work. */
  readonly breathe: () => Promise<void>;
  readonly demoSheets: readonly Sheet[];
  /** What a sentence on the start page means. */
  readonly start: Pick<DeskWorld, "means" | "choose">;
}

/** One or more sentences to show: what happened, or what went wrong. */
export interface Notice {
  readonly kind: "done" | "problem";
  readonly sentences: readonly string[];
}

const RUNNING = "running-visit";
const SETTINGS = "settings";
/** How often old sound is looked for: more than once a day, for a device that sleeps stretches the hours. */
const EXPIRY_MS = 60 * 60 * 1000;

/** All that the screens show and all that they can do. Nothing here rejects: what fails becomes a notice. */
export class Workplace {
  readonly session = signal<Session | null>(null);
  readonly visits = signal<readonly VisitHead[]>([]);
  readonly settings = signal<Settings>(FIRST_SETTINGS);
  readonly notice = signal<Notice | null>(null);
  /** Whether a visit is being worked on: at the boiler, or left for another screen before it was finished. */
  readonly visitRuns = computed(() => this.place.value.kind === "boiler" || this.#leftOpen.value);
  /** Whether the screen is to stay on: hands are at the boiler. */
  readonly isWatched = computed(() => this.session.value?.state.value.finished === false);
  readonly listening: Listening;
  readonly clips: Clips;
  readonly sheets: SheetShelf;
  readonly summaries: VisitSummaries;
  readonly intake: Intake;
  readonly desk: StartDesk;
  readonly check: MicrophoneCheck;
  readonly #leftOpen = signal(false);
  readonly #places: Places;
  readonly #parts: Parts;
  /** Null until something was to be understood. */
  #mind: Mind | null = null;
  /** Null until a visit was looked through. */
  #afterwards: Afterwards | null = null;

  constructor(parts: Parts) {
    this.#parts = parts;
    this.#places = new Places(parts.address, (place) => this.#enter(place));
    this.listening = new Listening(
      parts.speaker,
      {
        choose: (utterance) => this.#mind?.choose(utterance) ?? null,
        steers: (text) => this.#mind?.steers(text) ?? false,
      },
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
    const { notebook, newId, now, demoSheets } = parts;
    this.sheets = new SheetShelf({
      notebook,
      demo: demoSheets,
      newId,
      units: () => this.settings.value.units,
      today: () => isoDay(now(), parts.zone()),
      guard: (work) => this.#guard(work),
    });
    this.summaries = new VisitSummaries(notebook, now);
    this.intake = new Intake({
      notebook,
      shelf: this.sheets,
      newId,
      list: () => this.#list(),
      reason: reasonOf,
    });
    this.desk = new StartDesk({
      ...parts.start,
      speaker: parts.speaker,
      rows: () => sheetRows(this.sheets.own.value, this.sheets.all.value, this.visits.value),
      headset: () => this.settings.value.headset,
      ear: () => this.#ear("start"),
      start: (choice, title, heard) => this.startVisit(choice, title, heard),
    });
    this.check = new MicrophoneCheck({
      speaker: parts.speaker,
      mind: () => this.#mind,
      now,
      ear: () => this.#ear("visit"),
    });
  }

  get ears(): Ears {
    return this.#parts.ears;
  }

  get installed(): Installed {
    return this.#parts.installed;
  }

  /** The visit that is looked through. Throws where none was opened yet: a fault of the screen. */
  get afterwards(): Afterwards {
    if (!this.#afterwards) throw new Error("No visit is looked through.");
    return this.#afterwards;
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
      await this.sheets.load();
      if (!this.settings.value.welcomed) instead = { kind: "welcome" };
      this.#leftOpen.value = (await this.#running()) !== null;
      // A device that died at the boiler comes up there again.
      if (this.#parts.address.read() === "" && (await this.#running()) !== null) instead = { kind: "boiler" };
    });
    await this.#places.open(instead);
    void this.clips.expire();
    every(EXPIRY_MS, () => void this.clips.expire());
  }

  /** Starts a visit with a whole choice; where it was spoken, the ear goes on at the boiler. */
  async startVisit({ sheet, fuel }: StartChoice, title: string, heard: boolean): Promise<void> {
    if (sheet === null || fuel === null) return;
    const started = await this.#guard(async () => {
      const head: VisitHead = {
        id: this.#parts.newId(),
        title,
        startedAt: this.#parts.now(),
        zone: this.#parts.zone(),
        fuel,
        units: this.settings.value.units,
        sheet: sheet === "none" ? null : sheet,
      };
      await this.#parts.notebook.addVisit({ format: "burnerside-visit/1", head, entries: [] });
      await this.#goOn(head.id);
      await this.installed.keepForGood();
    });
    if (started && heard) await this.listen();
  }

  /** Goes on with an earlier visit. */
  async goOn(id: string): Promise<void> {
    await this.#guard(() => this.#goOn(id));
  }

  /** Leaves the boiler; the visit stays in the notebook as it is. */
  async leave(): Promise<void> {
    await this.#guard(() => this.#parts.notebook.keepSetting(RUNNING, null));
    await this.goTo({ kind: "start" });
    this.#leftOpen.value = false;
  }

  /** Hands over a visit as a JSON file. */
  async exportVisit(id: string): Promise<void> {
    await this.#guard(async () => {
      const visit = await this.#parts.notebook.visit(id);
      const day = visit.head.startedAt.slice(0, 10);
      const { exportVisit } = await import("../record/bundle.ts");
      download(`burnerside-visit-${day}-${id.slice(0, 8)}.json`, exportVisit(visit));
    });
  }

  /** Deletes a visit for good, with its sound. */
  async removeVisit(id: string): Promise<void> {
    await this.#guard(async () => {
      await this.#parts.notebook.dropVisit(id);
      if ((await this.#running()) === id) await this.#parts.notebook.keepSetting(RUNNING, null);
      this.#leftOpen.value &&= (await this.#running()) !== null;
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
    await this.listening.start(() => this.#ear("visit"));
    if (this.settings.value.ear === "offline") this.clips.prepare();
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

  /** The chosen ear, for what is said in a visit or on the start page. */
  async #ear(of: Tongue): Promise<Ear> {
    const { ear, platformMaySend } = this.settings.value;
    const { ears } = this.#parts;
    if (of === "visit") await this.#understanding();
    return ear === "offline"
      ? ears.offline(of, (given) => this.installed.ahead.fetch("ear", given))
      : ears.platform(platformMaySend, of);
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
    const mind = await this.#understanding();
    this.#afterwards ??= mind.lookThrough({
      // Nobody is at the boiler: nothing is said.
      open: (visitId) => this.#sessionOf(visitId, () => {}),
      keepName: (reviewer) => this.changeSettings({ reviewer }),
      breathe: this.#parts.breathe,
    });
    await this.#afterwards.open(id);
    await this.clips.open(id);
  }

  /** Opens the running visit for the boiler, closes it for every other place; where that fails the start is shown. */
  async #enter(place: Place): Promise<Place> {
    let shown: Place = { kind: "start" };
    await this.#guard(async () => {
      if (this.#afterwards?.session.value) {
        this.#afterwards.close();
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
    this.#leftOpen.value = this.isWatched.value;
    this.listening.hush();
    await this.listening.stop();
    this.session.value?.leave();
    this.session.value = null;
    await this.clips.open(null);
    await this.#list();
  }

  async #resume(id: string): Promise<void> {
    // One that cannot be read is none that runs.
    this.#leftOpen.value = false;
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
    const visit = await this.#parts.notebook.visit(id);
    const { notebook, now, breathe } = this.#parts;
    const mind = await this.#understanding();
    return mind.resume(visit, {
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

  async #understanding(): Promise<Mind> {
    this.#mind = await this.#parts.mind();
    return this.#mind;
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
      this.sheets.own.value = sheets.whole;
      this.summaries.forget();
      if (problems.length > 0) this.notice.value = { kind: "problem", sentences: problems };
    });
  }

  /** Whether the work was done; what failed becomes a notice. */
  async #guard(work: () => Promise<void>): Promise<boolean> {
    try {
      await work();
      return true;
    } catch (error) {
      this.notice.value = { kind: "problem", sentences: [`${reasonOf(error)}.`] };
      return false;
    }
  }
}

/** The tone of the reply; what is told unasked ("Ready", "Not saved") wants the technician's hands or eyes, or is a stop. */
function earconFor({ answer, earcon, judgement }: Reply, text: string): Earcon {
  if (text === answer) return earcon;
  return judgement.advice.action === "stop" ? "warning" : "asking";
}
