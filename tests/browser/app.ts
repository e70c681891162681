import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { BrowserContext, Page, Worker } from "playwright-core";
import type { Settings } from "../../src/app/settings.ts";
import { importVisit } from "../../src/record/bundle.ts";
import { examine } from "../../src/record/integrity/examine.ts";
import type { Visit } from "../../src/visit/visit.ts";
import { type Launched, launchBrowser } from "../support/browser/launch.ts";
import { type Served, serveApp } from "../support/browser/serve.ts";
import { EXAMINER } from "../support/cryptography.ts";

/** One thing that happened in the page, in order: entries on the disk, or a text given to the voice. */
export type Happening =
  | { readonly kind: "stored"; readonly durability: string }
  | { readonly kind: "spoken"; readonly text: string };

/** A row of the notebook's table of entries, as it lies in IndexedDB. */
export interface StoredRow {
  readonly visitId: string;
  readonly seq: number;
  readonly link?: string;
  readonly entry: {
    readonly at: string;
    readonly phrase: string;
    readonly said: string;
    readonly engine: string;
    readonly body: { readonly kind: string; readonly [key: string]: unknown };
  };
}

export interface OpenOptions {
  readonly served: Served;
  readonly profile: string;
  readonly microphone?: string;
  readonly allowed?: boolean;
  readonly graphics?: boolean;
  /** As in LaunchOptions. */
  readonly proxy?: string;
  /** Whether the platform has a voice of its own; it says every text at once. Unless told otherwise it has. */
  readonly platformVoice?: boolean;
  /** Whether key words are listened for too, as they are unless told otherwise; not where the first-run page is left open. */
  readonly keyWords?: boolean;
  /** Whether the first-run page is left open. */
  readonly firstRun?: boolean;
  /** Done to the browser before the app is loaded, after what this file does to it. */
  readonly prepare?: (context: BrowserContext) => Promise<void>;
}

/** The built app in a real Chromium: what a person sees and does there, and what the page asked of the browser. */
export class App {
  /** Addresses of all requests, in order. */
  readonly requests: string[] = [];
  /** Errors that nobody caught, and what the page's security policy refused. */
  readonly errors: string[] = [];

  private constructor(
    readonly served: Served,
    readonly launched: Launched,
    readonly page: Page,
  ) {}

  static async open({
    served,
    platformVoice = true,
    firstRun = false,
    keyWords = true,
    prepare,
    ...browser
  }: OpenOptions): Promise<App> {
    const launched = await launchBrowser(browser);
    const page = await launched.context.newPage();
    page.setDefaultTimeout(15_000);
    const app = new App(served, launched, page);
    launched.context.on("request", (request) => app.requests.push(request.url()));
    page.on("pageerror", (error) => app.errors.push(String(error)));
    page.on("console", (message) => {
      if (message.type() === "error") app.errors.push(message.text());
    });
    // Where tsx runs this it names every function by a helper that the page lacks.
    await launched.context.addInitScript("globalThis.__name ??= (named) => named");
    await launched.context.addInitScript(watch, platformVoice);
    await prepare?.(launched.context);
    await app.load();
    if (!firstRun) await app.passWelcome();
    if (!firstRun && !keyWords) await app.changeSettings({ keyWords: false });
    return app;
  }

  /** Goes through the first-run page, where it is open. */
  async passWelcome(): Promise<void> {
    if (!new URL(this.page.url()).hash.startsWith("#/welcome")) return;
    await this.page.locator("input[name=cautions-read]").check();
    await this.page.getByRole("button", { name: "To the start" }).click();
    await this.page.locator(".start").waitFor();
  }

  /** Has settings changed, past their screen. */
  async changeSettings(change: Partial<Settings>): Promise<void> {
    type Row = { readonly key: string; readonly value: Settings };
    let row: Row | undefined;
    // What was gone through on the first-run page is stored a moment after.
    while (!row?.value.welcomed) {
      const rows = (await this.table("settings")) as Row[];
      row = rows.find(({ key }) => key === "settings");
    }
    await this.overwrite("settings", { ...row, value: { ...row.value, ...change } });
    await this.load();
  }

  async load(): Promise<void> {
    await this.page.goto(this.served.url);
    await this.page.locator("h1").waitFor();
  }

  /** Has the page keep what it opens as its microphones: reload with it, then `tracks` tells of them. */
  async keepMicrophones(): Promise<void> {
    await this.page.addInitScript(keepTracks);
    await this.load();
  }

  /** The state of every microphone that was opened, in order. */
  tracks(): Promise<string[]> {
    return this.page.evaluate(() =>
      (globalThis as unknown as { tracks: MediaStreamTrack[] }).tracks.map((track) => track.readyState),
    );
  }

  /** How many of them are open. */
  async open(): Promise<number> {
    return (await this.tracks()).filter((state) => state === "live").length;
  }

  /** The recogniser's threads: the encoder of kept sound has one of its own. */
  earWorkers(): Worker[] {
    return this.page.workers().filter((worker) => /\/worker-/.test(worker.url()));
  }

  /** Taps the light and waits until the ear listens. */
  async listen(): Promise<void> {
    await this.page.locator(".ear").click();
    await this.page.locator(".ear-listening").waitFor({ timeout: 60_000 });
  }

  /** Waits until key words are listened for: their microphone is the last that is opened, and the first window takes a second. */
  async keyWords(): Promise<void> {
    await this.page.waitForFunction(() => Reflect.get(globalThis, "tracks")?.length > 0);
    await this.page.waitForTimeout(1500);
  }

  /** Starts a visit with a sheet, chosen by its title, or "Without a sheet"; on natural gas where the sheet has more. */
  async startVisit(sheet = "Demo wall-hung 35 kW, natural gas", units: "us" | "si" = "si"): Promise<void> {
    const all = this.page.locator(".all-sheets");
    if ((await all.count()) > 0) await all.click();
    await this.page.locator(".sheet-row", { hasText: sheet }).locator("input").check();
    const gas = this.page.locator("input[name=fuel][value=natural-gas]");
    if ((await gas.count()) > 0) await gas.check();
    await this.page.locator(`input[name=units][value=${units}]`).check();
    await this.page.getByRole("button", { name: "Go", exact: true }).click();
    await this.page.locator(".face").waitFor();
  }

  /** Types a phrase and waits until it has been dealt with: answered, passed over, or not saved. */
  async type(phrase: string): Promise<void> {
    await this.send(phrase);
    await this.page.locator(`main[aria-busy="false"]`).waitFor();
  }

  /** Types a phrase and does not wait. */
  async send(phrase: string): Promise<void> {
    await this.page.getByLabel("Or type").fill(phrase);
    await this.page.getByLabel("Or type").press("Enter");
  }

  /** The text of one element, once it is there. */
  async text(selector: string): Promise<string> {
    await this.page.locator(selector).waitFor();
    const [text = ""] = await this.texts(selector);
    return text;
  }

  texts(selector: string): Promise<string[]> {
    return this.page.locator(selector).allInnerTexts();
  }

  /** What happened so far, and what is being said now. */
  async happenings(): Promise<Happening[]> {
    await this.page.locator(".ear-area.speaking").waitFor({ state: "detached" });
    return this.page.evaluate(() => (globalThis as unknown as { happened: Happening[] }).happened);
  }

  async spoken(): Promise<string[]> {
    return (await this.happenings()).flatMap((one) => (one.kind === "spoken" ? [one.text] : []));
  }

  /** What lies in IndexedDB, read past the app. */
  stored(): Promise<StoredRow[]> {
    return this.page.evaluate(readTable<StoredRow>, "entries");
  }

  /** The stored visit with what its log is checked by: it alone is there. Throws where it is not sound, or its links do not fit. */
  async wholeLog(): Promise<Visit> {
    const rows = await this.stored();
    const [head] = await this.table("visits");
    const [checked] = (await this.table("integrity")) as { links: string[]; signatures: string[] }[];
    const links = [...(checked?.links ?? []), ...rows.flatMap(({ link }) => link ?? [])];
    const read = importVisit(
      JSON.stringify({
        format: "burnerside-visit/1",
        head,
        entries: rows.map(({ entry }) => entry),
        integrity: { links, signatures: checked?.signatures ?? [] },
      }),
    );
    if (!read.ok) throw new Error(`The stored visit is not sound: ${JSON.stringify(read.problems)}`);
    const finding = await examine(read.visit, EXAMINER);
    if (finding.kind === "altered")
      throw new Error(`The stored log is not whole: ${JSON.stringify(finding)}`);
    return read.visit;
  }

  async table(name: string): Promise<unknown[]> {
    return this.page.evaluate(readTable<unknown>, name);
  }

  /** Puts a row into IndexedDB past the app, as a fault of the disk or of another program would. */
  overwrite(table: string, row: object): Promise<void> {
    return this.page.evaluate(
      ([name, value]) =>
        new Promise<void>((resolve, reject) => {
          const opening = indexedDB.open("burnerside");
          opening.onsuccess = () => {
            const writing = opening.result.transaction(name, "readwrite");
            writing.objectStore(name).put(value);
            writing.onabort = () => reject(writing.error);
            writing.oncomplete = () => {
              opening.result.close();
              resolve();
            };
          };
        }),
      [table, row] as const,
    );
  }

  /** Hands a file to the start screen, and gives back what it says about it. */
  async bringIn(name: string, text: string): Promise<string[]> {
    const file = { name, mimeType: "application/json", buffer: Buffer.from(text) };
    // What was told before is not about this file.
    const told = this.page.locator(".notice button");
    if ((await told.count()) > 0) await told.click();
    await this.page.locator("input[type=file]").setInputFiles(file);
    await this.page.locator(".notice li").first().waitFor();
    const sentences = await this.texts(".notice li");
    await this.page.locator(".notice button").click();
    return sentences;
  }
}

/** Runs in the page before the app: writes down, in order, finished writes of entries and texts given to the voice. */
function watch(platformVoice: boolean): void {
  const happened: Happening[] = [];
  Object.assign(globalThis, { happened });
  const { transaction } = IDBDatabase.prototype;
  IDBDatabase.prototype.transaction = function (stores, mode, options) {
    const made = transaction.call(this, stores, mode, options);
    if (mode === "readwrite" && [...made.objectStoreNames].includes("entries")) {
      made.addEventListener("complete", () => happened.push({ kind: "stored", durability: made.durability }));
    }
    return made;
  };
  if (!platformVoice) return;
  // Headless browsers have no voices.
  SpeechSynthesis.prototype.getVoices = () => [
    { lang: "en-US", name: "test", voiceURI: "test", localService: true, default: true },
  ];
  Object.defineProperty(SpeechSynthesisUtterance.prototype, "voice", { set: () => undefined });
  SpeechSynthesis.prototype.speak = (utterance) => {
    happened.push({ kind: "spoken", text: utterance.text });
    utterance.dispatchEvent(new Event("end"));
  };
}

/** Runs in the page before the app. */
export function keepTracks(): void {
  const tracks: MediaStreamTrack[] = [];
  Object.assign(globalThis, { tracks });
  const { getUserMedia } = MediaDevices.prototype;
  MediaDevices.prototype.getUserMedia = async function (constraints) {
    const stream = await getUserMedia.call(this, constraints);
    tracks.push(...stream.getTracks());
    return stream;
  };
}

/** Runs in the page: all rows of one table. */
function readTable<T>(name: string): Promise<T[]> {
  return new Promise((resolve, reject) => {
    const opening = indexedDB.open("burnerside");
    opening.onerror = () => reject(opening.error);
    opening.onsuccess = () => {
      const database = opening.result;
      const rows = database.transaction(name).objectStore(name).getAll();
      rows.onerror = () => reject(rows.error);
      rows.onsuccess = () => {
        database.close();
        resolve(rows.result as T[]);
      };
    };
  });
}

/** Serves the app and opens it in fresh profiles; everything is closed and deleted when the work is over. */
export async function withApp<T>(
  options: Omit<OpenOptions, "served" | "profile">,
  work: (app: App, reopen: () => Promise<App>) => Promise<T>,
): Promise<T> {
  const served = await serveApp();
  const profile = await mkdtemp(join(tmpdir(), "burnerside-test-"));
  const opened: App[] = [];
  const open = async () => {
    const app = await App.open({ served, profile, ...options });
    opened.push(app);
    return app;
  };
  try {
    const done = await work(await open(), open);
    if (served.refused.length > 0) throw new Error(`The app's policy refused: ${served.refused.join("\n")}`);
    return done;
  } finally {
    await opened.at(-1)?.launched.close();
    await served.close();
    await rm(profile, { recursive: true, force: true, maxRetries: 5 });
  }
}
