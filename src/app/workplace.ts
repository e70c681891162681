import { batch, computed, type ReadonlySignal, signal } from "@preact/signals";
import { every } from "../device/clock.ts";
import type { Ear } from "../device/ears/ear.ts";
import { reasonOf } from "../device/notebook.ts";
import { isoDay } from "../measure/zone.ts";
import type { Afterwards } from "./afterwards/afterwards.ts";
import type { Session } from "./boiler/session.ts";
import { Sessions } from "./boiler/sessions.ts";
import type { Installed } from "./installed/installed.ts";
import type { Mind } from "./mind.ts";
import type { Office } from "./office/office.ts";
import { type Place, placeOf } from "./place.ts";
import { Places } from "./places.ts";
import { Preferences, SETTINGS_KEY } from "./preferences.ts";
import { firstDetails, type VisitNames } from "./record/given-details.ts";
import type { Records } from "./record/records.ts";
import type { Settings } from "./settings.ts";
import { sheetRows } from "./sheets/order.ts";
import { SheetShelf } from "./sheets/shelf.ts";
import { Clips } from "./sound/clips.ts";
import type { Ears, Tongue } from "./sound/ears.ts";
import { Listening } from "./sound/listening.ts";
import type { StartChoice } from "./start/choice.ts";
import { StartDesk } from "./start/desk.ts";
import { Intake } from "./start/intake.ts";
import { MicrophoneCheck } from "./start/microphone-check.ts";
import { VisitShelf } from "./start/visit-shelf.ts";
import { VisitSummaries } from "./start/visit-summaries.ts";
import type { World } from "./world.ts";

/** One or more sentences to show: what happened, or what went wrong. */
export interface Notice {
  readonly kind: "done" | "problem";
  readonly sentences: readonly string[];
}

/** How often old sound is looked for: more than once a day, for a device that sleeps stretches the hours. */
const EXPIRY_MS = 60 * 60 * 1000;

/** All that the screens show and all that they can do. Nothing here rejects: what fails becomes a notice. */
export class Workplace {
  readonly session = signal<Session | null>(null);
  readonly notice = signal<Notice | null>(null);
  /** Id of the visit that is being handed over: what it can be is shown beside it. */
  readonly exporting = signal<string | null>(null);
  /** Whether a visit is being worked on: at the boiler, or left for another screen before it was finished. */
  readonly visitRuns = computed(() => this.place.value.kind === "boiler" || this.#leftOpen.value);
  /** Whether the screen is to stay on: hands are at the boiler. */
  readonly isWatched = computed(() => this.session.value?.state.value.finished === false);
  readonly listening: Listening;
  readonly clips: Clips;
  readonly sheets: SheetShelf;
  readonly visits: VisitShelf;
  readonly summaries: VisitSummaries;
  readonly intake: Intake;
  readonly desk: StartDesk;
  readonly check: MicrophoneCheck;
  readonly #leftOpen = signal(false);
  readonly #preferences: Preferences;
  readonly #sessions: Sessions;
  readonly #places: Places;
  readonly #world: World;
  /** Null until something was to be understood. */
  #mind: Mind | null = null;
  /** Null until a visit was looked through. */
  #afterwards: Afterwards | null = null;
  /** Null until the office was opened. */
  #office: Office | null = null;
  /** Null until a record was opened. */
  #records: Records | null = null;
  /** Whether somebody came to the office past the first-run page: all else opens once that was gone through. */
  #isVisitor = false;

  constructor(world: World) {
    this.#world = world;
    this.#preferences = new Preferences(world.notebook);
    this.#places = new Places(world.address, (place) => this.#enter(place));
    this.listening = new Listening(
      world.speaker,
      {
        choose: (utterance) => this.#mind?.choose(utterance) ?? null,
        steers: (text) => this.#mind?.steers(text) ?? false,
      },
      (phrase) => void this.session.value?.hear(phrase),
      () => this.settings.value.headset,
    );
    this.clips = new Clips({
      shelf: world.notebook.clips,
      encoder: world.clipEncoder,
      player: world.clipPlayer,
      settings: () => this.settings.value,
      settingsKey: SETTINGS_KEY,
      now: world.now,
      sounds: (sounding) => this.listening.sounds("", sounding),
      reason: reasonOf,
    });
    const { notebook, newId, now, zone, breathe, demoSheets } = world;
    this.#sessions = new Sessions({
      notebook,
      now,
      breathe,
      mind: () => this.#understanding(),
      clips: this.clips,
      listening: this.listening,
      settings: () => this.settings.value,
      changeSettings: (change) => this.changeSettings(change),
    });
    this.visits = new VisitShelf({ notebook, newId, now, zone });
    this.sheets = new SheetShelf({
      notebook,
      demo: demoSheets,
      newId,
      units: () => this.settings.value.units,
      today: () => isoDay(now(), zone()),
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
      ...world.start,
      speaker: world.speaker,
      rows: () => sheetRows(this.sheets.own.value, this.sheets.all.value, this.visits.heads.value),
      headset: () => this.settings.value.headset,
      ear: () => this.#ear("start"),
      start: (choice, names, heard) => this.startVisit(choice, names, heard),
    });
    this.check = new MicrophoneCheck({
      speaker: world.speaker,
      mind: () => this.#mind,
      now,
      ear: () => this.#ear("visit"),
    });
  }

  get settings(): ReadonlySignal<Settings> {
    return this.#preferences.chosen;
  }

  get ears(): Ears {
    return this.#world.ears;
  }

  get installed(): Installed {
    return this.#world.installed;
  }

  /** The visit that is looked through. Throws where none was opened yet: a fault of the screen. */
  get afterwards(): Afterwards {
    if (!this.#afterwards) throw new Error("No visit is looked through.");
    return this.#afterwards;
  }

  /** The visits of many. Throws where the office was not opened yet: a fault of the screen. */
  get office(): Office {
    if (!this.#office) throw new Error("The office is not open.");
    return this.#office;
  }

  /** The record that is shown. Throws where none was opened yet: a fault of the screen. */
  get records(): Records {
    if (!this.#records) throw new Error("No record was opened.");
    return this.#records;
  }

  /** The screen that is open. */
  get place(): ReadonlySignal<Place> {
    return this.#places.place;
  }

  /** Opens a screen. The boiler is of the visit that was gone on with last. */
  async goTo(place: Place): Promise<void> {
    await this.#places.goTo(place);
  }

  /** The day here, YYYY-MM-DD. */
  get today(): string {
    return isoDay(this.#world.now(), this.#world.zone());
  }

  get now(): () => string {
    return this.#world.now;
  }

  /** Reads what the notebook holds and goes on with the running visit, if there is one. */
  async open(): Promise<void> {
    let instead: Place | null = null;
    await this.#guard(async () => {
      await this.#preferences.load();
      await this.#list();
      await this.sheets.load();
      if (!this.settings.value.welcomed) {
        // The office needs neither a licence nor a microphone; it has a caution of its own.
        this.#isVisitor = placeOf(this.#world.address.read()).kind === "office";
        if (!this.#isVisitor) instead = { kind: "welcome" };
      }
      this.#leftOpen.value = (await this.visits.running()) !== null;
      // A device that died at the boiler comes up there again.
      if (this.#world.address.read() === "" && (await this.visits.running()) !== null)
        instead = { kind: "boiler" };
    });
    await this.#places.open(instead);
    void this.clips.expire();
    every(EXPIRY_MS, () => void this.clips.expire());
  }

  /** Starts a visit with a whole choice; where it was spoken, the ear goes on at the boiler. */
  async startVisit({ sheet, fuel }: StartChoice, names: VisitNames, heard: boolean): Promise<void> {
    if (sheet === null || fuel === null) return;
    const started = await this.#guard(async () => {
      const { units } = this.settings.value;
      const chosen = { title: names.title, fuel, units, sheet: sheet === "none" ? null : sheet };
      const id = await this.visits.add(chosen, firstDetails(names, this.settings.value));
      await this.#goOn(id);
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
    await this.#guard(() => this.visits.run(null));
    await this.goTo({ kind: "start" });
    this.#leftOpen.value = false;
  }

  /** Hands over a visit as a JSON file. */
  async exportVisit(id: string): Promise<void> {
    await this.#guard(async () => {
      const name = await this.visits.export(id);
      this.notice.value = { kind: "done", sentences: [`Exported: ${name}`] };
    });
  }

  /** Hands over the record that is open as a PDF file. */
  async saveRecord(): Promise<void> {
    await this.#guard(async () => {
      this.notice.value = null;
      const name = await this.records.save();
      if (name !== null) this.notice.value = { kind: "done", sentences: [`Saved: ${name}`] };
    });
  }

  /** Hands it to the platform's share sheet. */
  async shareRecord(): Promise<void> {
    await this.#guard(async () => {
      this.notice.value = null;
      if ((await this.records.share()) !== "not-possible") return;
      const sentences = [
        "The file is ready, but the share sheet did not open: tap Share once more, or save it.",
      ];
      this.notice.value = { kind: "problem", sentences };
    });
  }

  /** Deletes a visit for good, with its sound. */
  async removeVisit(id: string): Promise<void> {
    await this.#guard(async () => {
      await this.visits.remove(id);
      this.#leftOpen.value &&= (await this.visits.running()) !== null;
      await this.#list();
    });
  }

  async changeSettings(change: Partial<Settings>): Promise<void> {
    await this.#guard(() => this.#preferences.change(change));
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
    const { ears } = this.#world;
    if (of === "visit") await this.#understanding();
    return ear === "offline"
      ? ears.offline(of, (given) => this.installed.ahead.fetch("ear", given))
      : ears.platform(platformMaySend, of);
  }

  async #goOn(id: string): Promise<void> {
    await this.visits.run(id);
    await this.goTo({ kind: "boiler" });
  }

  async #lookThrough(id: string): Promise<void> {
    const mind = await this.#understanding();
    this.#afterwards ??= mind.lookThrough({
      open: (visitId) => this.#sessions.quiet(visitId),
      keepName: (reviewer) => this.changeSettings({ reviewer }),
      breathe: this.#world.breathe,
    });
    await this.#afterwards.open(id);
    await this.clips.open(id);
  }

  async #readyRecords(): Promise<Records> {
    const { makeRecords } = await import("./record/make-records.ts");
    const { notebook, breathe } = this.#world;
    this.#records ??= makeRecords({
      notebook,
      breathe,
      now: this.now,
      fetchAhead: () => this.installed.ahead.fetch("pdf"),
    });
    return this.#records;
  }

  /** Opens the running visit for the boiler, closes it for every other place; where that fails the start is shown. */
  async #enter(wanted: Place): Promise<Place> {
    const isBarred = this.#isVisitor && !this.settings.value.welcomed && wanted.kind !== "office";
    const place: Place = isBarred ? { kind: "welcome" } : wanted;
    let shown: Place = { kind: "start" };
    this.exporting.value = null;
    // What was done there is no news here.
    if (this.notice.value?.kind === "done") this.notice.value = null;
    await this.#guard(async () => {
      if (this.#afterwards?.session.value) {
        this.#afterwards.close();
        await this.clips.open(null);
      }
      if (place.kind === "boiler") {
        const id = await this.visits.running();
        if (id === null) return;
        if (this.session.value?.visit.value.head.id !== id) await this.#resume(id);
      } else if (this.session.value) {
        await this.#close();
      }
      this.#records?.close();
      if (place.kind === "afterwards") await this.#lookThrough(place.visitId);
      if (place.kind === "office") {
        this.#office = await this.#world.office();
        await this.#office.open(place.part);
        if (place.part.kind === "visit") await this.#readyRecords();
      }
      if (place.kind === "record") await (await this.#readyRecords()).look(place.visitId);
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
    const session = await this.#sessions.atBoiler(id);
    await this.clips.open(id);
    batch(() => {
      this.session.value = session;
      this.notice.value = null;
    });
  }

  async #understanding(): Promise<Mind> {
    this.#mind = await this.#world.mind();
    return this.#mind;
  }

  async #list(): Promise<void> {
    const [visits, sheets] = await Promise.all([
      this.#world.notebook.visits(),
      this.#world.notebook.sheets(),
    ]);
    const problems = [...visits.problems, ...sheets.problems];
    batch(() => {
      this.visits.heads.value = visits.whole;
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
