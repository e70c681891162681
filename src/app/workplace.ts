import { computed, type ReadonlySignal, type Signal } from "@preact/signals";
import { every } from "../device/clock.ts";
import { reasonOf } from "../device/notebook/trouble.ts";
import { isoDay } from "../measure/zone.ts";
import type { Visit } from "../visit/visit.ts";
import type { Afterwards } from "./afterwards/afterwards.ts";
import type { BackupDesk } from "./backup/backup-desk.ts";
import type { Session } from "./boiler/session.ts";
import { Sessions } from "./boiler/sessions.ts";
import type { Installed } from "./installed/installed.ts";
import type { Steering } from "./key-words/steering.ts";
import type { Office } from "./office/office.ts";
import { once } from "./once.ts";
import type { OwnVoice } from "./own-voice/create.ts";
import type { Place } from "./place.ts";
import { Places } from "./places.ts";
import { Preferences } from "./preferences.ts";
import { firstDetails, type VisitNames } from "./record/given-details.ts";
import type { Records } from "./record/records.ts";
import { Signing } from "./safekeeping/signing.ts";
import type { Settings } from "./settings.ts";
import { sheetRows } from "./sheets/order.ts";
import type { SheetShelf } from "./sheets/shelf.ts";
import type { Clips } from "./sound/clips.ts";
import type { Ears } from "./sound/ears.ts";
import type { Listening } from "./sound/listening.ts";
import type { StartChoice } from "./start/choice.ts";
import { StartDesk } from "./start/desk.ts";
import type { Intake } from "./start/intake.ts";
import { MicrophoneCheck } from "./start/microphone-check.ts";
import type { VisitShelf } from "./start/visit-shelf.ts";
import type { VisitSummaries } from "./start/visit-summaries.ts";
import { BackingUp } from "./workplace/backing-up.ts";
import { Entrance } from "./workplace/entrance.ts";
import { HandingOver } from "./workplace/handing-over.ts";
import { Hearing } from "./workplace/hearing.ts";
import { LateMind } from "./workplace/late-mind.ts";
import { type Notice, Notices } from "./workplace/notices.ts";
import { Opened } from "./workplace/opened.ts";
import { Running } from "./workplace/running.ts";
import { Shelves } from "./workplace/shelves.ts";
import type { World } from "./world.ts";

/** How often old sound is looked for: more than once a day, for a device that sleeps stretches the hours. */
const EXPIRY_MS = 60 * 60 * 1000;

/** All that the screens show and all that they can do, put together of its parts. Nothing here rejects: what fails becomes a notice. */
export class Workplace {
  /** The visit at the boiler; null while another screen is open. */
  readonly session: ReadonlySignal<Session | null>;
  readonly notice: Signal<Notice | null>;
  /** Id of the visit that is being handed over: what it can be is shown beside it. */
  readonly exporting: Signal<string | null>;
  /** Whether a visit is being worked on: at the boiler, or left for another screen before it was finished. */
  readonly visitRuns = computed(() => this.place.value.kind === "boiler" || this.#running.leftOpen.value);
  /** Whether the screen is to stay on: hands are at the boiler, or it is read from. */
  readonly isWatched = computed(() => this.#running.isWatched.value || this.place.value.kind === "own-voice");
  readonly listening: Listening;
  readonly clips: Clips;
  /** What the key words do; null until it was loaded. */
  readonly steering: ReadonlySignal<Steering | null>;
  readonly sheets: SheetShelf;
  readonly visits: VisitShelf;
  readonly summaries: VisitSummaries;
  readonly intake: Intake;
  readonly backups: BackupDesk;
  readonly desk: StartDesk;
  readonly check: MicrophoneCheck;
  /** People's voices, loaded when they are first shown; the same each time. Rejects where it cannot be loaded. */
  readonly ownVoice: () => Promise<OwnVoice>;
  readonly #world: World;
  readonly #notices = new Notices();
  readonly #preferences: Preferences;
  readonly #shelves: Shelves;
  readonly #hearing: Hearing;
  readonly #running: Running;
  readonly #opened: Opened;
  readonly #handingOver: HandingOver;
  readonly #entrance: Entrance;
  readonly #places: Places;

  constructor(world: World) {
    this.#world = world;
    const { notebook, address, speaker, now, breathe } = world;
    const notices = this.#notices;
    const settings = () => this.settings.value;
    const changeSettings = (change: Partial<Settings>) => this.changeSettings(change);
    const mind = new LateMind(world.mind);
    const signing = new Signing(world, reasonOf);
    const preferences = new Preferences(notebook);
    this.#preferences = preferences;
    const backingUp = new BackingUp({ ...world, signing, preferences, list: () => this.#shelves.list() });
    this.backups = backingUp.desk;
    this.#shelves = new Shelves(
      { ...world, signing, restoring: (file, kind) => backingUp.restoring(file, kind) },
      notices,
      () => settings().units,
    );
    this.#hearing = new Hearing(
      world,
      mind,
      settings,
      (phrase) => void this.#running.hear(phrase),
      () => this.#running.session.value,
      (sentence) => notices.problem([sentence]),
    );
    const { listening, clips } = this.#hearing;
    const sessions = new Sessions({
      notebook,
      now,
      breathe,
      mind: () => mind.load(),
      clips,
      listening,
      steering: this.#hearing.steering,
      settings,
      changeSettings,
      run: (visitId) => this.visits.run(visitId),
      signing,
    });
    this.#running = new Running({ sessions, hearing: this.#hearing, shelves: this.#shelves, notices });
    this.#opened = new Opened({
      ...world,
      mind,
      clips,
      signing,
      open: (visitId) => sessions.quiet(visitId),
      keepName: (reviewer) => changeSettings({ reviewer }),
      changed: () => this.summaries.forget(),
    });
    const { sheets, visits, summaries, intake } = this.#shelves;
    this.#handingOver = new HandingOver({ visits, records: () => this.records, notices });
    this.#entrance = new Entrance({
      running: this.#running,
      opened: this.#opened,
      handingOver: this.#handingOver,
      notices,
      address,
      isWelcomed: () => settings().welcomed,
    });
    this.#places = new Places(address, (place) => this.#entrance.enter(place));
    this.desk = new StartDesk({
      ...world.start,
      speaker,
      rows: () => sheetRows(sheets.own.value, sheets.all.value, visits.heads.value),
      headset: () => settings().headset,
      ear: () => this.#hearing.ear("start"),
      start: (choice, names, heard) => this.startVisit(choice, names, heard),
    });
    this.check = new MicrophoneCheck({
      speaker,
      mind: () => mind.loaded,
      now,
      ear: () => this.#hearing.ear("visit"),
    });
    this.ownVoice = once(async () => {
      const { createOwnVoice } = await import("./own-voice/create.ts");
      return createOwnVoice({
        ...world,
        settings,
        changeSettings,
        listens: computed(() => ["loading", "listening"].includes(listening.state.value.kind)),
        guard: (work) => notices.guard(work),
        reason: reasonOf,
      });
    });
    world.otherEars.onTold(() => {
      void this.#hearing.giveWay();
      void this.desk.leave();
    });
    this.session = this.#running.session;
    this.notice = notices.shown;
    this.exporting = this.#handingOver.exporting;
    this.listening = listening;
    this.clips = clips;
    this.steering = this.#hearing.steering;
    this.sheets = sheets;
    this.visits = visits;
    this.summaries = summaries;
    this.intake = intake;
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
    return this.#opened.afterwards;
  }

  /** The visits of many. Throws where the office was not opened yet: a fault of the screen. */
  get office(): Office {
    return this.#opened.office;
  }

  /** The record that is shown. Throws where none was opened yet: a fault of the screen. */
  get records(): Records {
    return this.#opened.records;
  }

  /** The screen that is open. */
  get place(): ReadonlySignal<Place> {
    return this.#places.place;
  }

  /** The day here, YYYY-MM-DD. */
  get today(): string {
    return isoDay(this.#world.now(), this.#world.zone());
  }

  /** Of this device; null where the platform does not know it. */
  get zone(): string | null {
    return this.#world.zone();
  }

  get now(): () => string {
    return this.#world.now;
  }

  /** Opens a screen. The boiler is of the visit that was gone on with last. */
  async goTo(place: Place): Promise<void> {
    await this.#places.goTo(place);
  }

  /** Reads what the notebook holds and goes on with the running visit, if there is one. */
  async open(): Promise<void> {
    let instead: Place | null = null;
    await this.#notices.guard(async () => {
      await this.#preferences.load();
      await this.#shelves.list();
      await this.sheets.load();
      instead = await this.#entrance.first();
    });
    await this.#places.open(instead);
    void this.installed.lookKept();
    void this.clips.expire();
    every(EXPIRY_MS, () => void this.clips.expire());
  }

  /** Starts a visit with a whole choice; where it was spoken, the ear goes on at the boiler. */
  async startVisit({ sheet, fuel }: StartChoice, names: VisitNames, heard: boolean): Promise<void> {
    if (sheet === null || fuel === null) return;
    const started = await this.#notices.guard(async () => {
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
    await this.#notices.guard(() => this.#goOn(id));
  }

  /** Leaves the boiler; the visit stays in the notebook as it is. */
  async leave(): Promise<void> {
    if (!this.#running.isHolding.value) await this.#notices.guard(() => this.visits.run(null));
    await this.goTo({ kind: "start" });
    this.#running.leftOpen.value = false;
  }

  /** Deletes a visit for good, with its sound. */
  async removeVisit(id: string): Promise<void> {
    await this.#notices.guard(async () => {
      await this.visits.remove(id);
      this.#running.leftOpen.value &&= (await this.visits.running()) !== null;
      await this.#shelves.list();
    });
  }

  /** Hands over a visit as a JSON file. */
  async exportVisit(id: string): Promise<void> {
    await this.#handingOver.exportVisit(id);
    await this.backups.look();
  }

  /** Hands over a visit as it is in memory, whatever lies on the disk. */
  async saveOpen(visit: Visit): Promise<void> {
    await this.#handingOver.saveOpen(visit);
  }

  /** Hands over the record that is open as a PDF file. */
  async saveRecord(): Promise<void> {
    await this.#handingOver.saveRecord();
  }

  /** Hands it to the platform's share sheet. */
  async shareRecord(): Promise<void> {
    await this.#handingOver.shareRecord();
  }

  async changeSettings(change: Partial<Settings>): Promise<void> {
    await this.#notices.guard(() => this.#preferences.change(change));
  }

  /** Starts the chosen ear. */
  async listen(): Promise<void> {
    await this.#hearing.listen();
  }

  /** Starts or stops the chosen ear: what a tap on the light does, and the headset's button. */
  async switchEar(): Promise<void> {
    await this.#hearing.switch();
  }

  /** Hands a typed phrase to the running visit. */
  async type(text: string): Promise<void> {
    this.steering.value?.leave();
    await this.#running.hear({ text, engine: "typed", confidence: 1, sound: null });
  }

  async #goOn(id: string): Promise<void> {
    await this.visits.run(id);
    await this.goTo({ kind: "boiler" });
  }
}
