/**
 * How fast the installed app is on a slow phone, and whether it can be installed: `npm run bench:app`. What is measured:
 * README.md beside this file. After `--`: `--only loads|long`, `--runs N`, `--entries N`, `--as-is` for this machine's own
 * speed.
 */
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import type { BrowserContext, Page } from "playwright-core";
import { exportVisit } from "../../src/record/bundle.ts";
import { untilInstalled } from "../browser/installed.ts";
import { launchBrowser } from "../support/browser/launch.ts";
import { serveApp } from "../support/browser/serve.ts";
import { longVisit } from "../support/long-visit.ts";
import { installability } from "./app/install.ts";
import { asPhone, longestTask, PHONE, pageTime } from "./app/phone.ts";

const { values: args } = parseArgs({
  options: {
    only: { type: "string" },
    runs: { type: "string", default: "5" },
    entries: { type: "string", default: "2000" },
    "as-is": { type: "boolean", default: false },
  },
});
const RUNS = Number(args.runs);
const BROWSER_STARTS_MS = 3000;
const SLOWER = args["as-is"] ? 1 : PHONE.slower;
const NETWORK = !args["as-is"];
const print = (line: string) => process.stdout.write(`${line}\n`);
const kB = (bytes: number) => `${(bytes / 1000).toFixed(1)} kB`;
const ms = (value: number) => `${Math.round(value)} ms`;
const median = (values: readonly number[]) =>
  [...values].sort((a, b) => a - b)[values.length >> 1] ?? Number.NaN;
const aim = (met: boolean) => (met ? "met" : "NOT MET");

/** On the first page: the cautions are read. What it opens is drawn when it is tapped. */
const CAUTIONS = "input[name=cautions-read]";
const ONWARD = ".welcome .main-button:not([aria-disabled=true])";
const START = ".start .go";
/** A choice at the start. */
const CHOICE = ".start input[name=units][value=si]";
const WATCHED = [CAUTIONS, START, CHOICE, ".face", ".line"];

/** What one load was like: times from its beginning, ms; bytes until the time that each is named for. */
interface Load {
  readonly shown: number;
  readonly answers: number;
  readonly longest: number;
  readonly script: number;
  readonly all: number;
}

async function openPage(context: BrowserContext): Promise<Page> {
  const page = await context.newPage();
  page.setDefaultTimeout(60_000);
  // tsx names every function by a helper that the page lacks.
  await page.addInitScript("globalThis.__name = (named) => named");
  return page;
}

interface FirstLoad extends Load {
  /** Until a typed phrase is answered. */
  readonly phraseAt: number;
  readonly phraseScript: number;
}

/** The very first load: the first page, and a tap on it; then on to a visit and its first phrase. */
async function firstLoad(page: Page, url: string): Promise<FirstLoad> {
  const phone = await asPhone(page, WATCHED, SLOWER, NETWORK);
  await page.goto(url, { waitUntil: "commit" });
  const shown = await phone.drawn(CAUTIONS);
  const answers = await phone.tap(CAUTIONS);
  const { script, all } = phone.transferred();
  await page.locator(ONWARD).click();
  await page.locator(".sheet-row", { hasText: "35 kW" }).locator("input").check();
  await page.locator(START).click();
  await page.locator(".face").waitFor();
  await page.getByLabel("Or type").fill("high fire CO2 nine point two");
  await page.getByLabel("Or type").press("Enter");
  const phraseAt = await phone.drawn(".line");
  const longest = await longestTask(page);
  return {
    shown,
    answers,
    longest,
    script,
    all,
    phraseScript: script + phone.transferred().script,
    phraseAt,
  };
}

/** A later load, straight to the start screen: a choice there answers a tap. */
async function laterLoad(page: Page, url: string): Promise<Load> {
  const phone = await asPhone(page, WATCHED, SLOWER, NETWORK);
  await page.goto(url, { waitUntil: "commit" });
  const shown = await phone.drawn(START);
  const answers = await phone.tap(CHOICE);
  const { script, all } = phone.transferred();
  return { shown, answers, longest: await longestTask(page), script, all };
}

async function loads(): Promise<void> {
  const first: FirstLoad[] = [];
  const again: Load[] = [];
  const offline: Load[] = [];
  for (let run = 0; run < RUNS; run += 1) {
    const profile = await mkdtemp(join(tmpdir(), "burnerside-bench-"));
    const served = await serveApp();
    let launched = await launchBrowser({ profile });
    const page = await openPage(launched.context);
    first.push(await firstLoad(page, served.url));
    await untilInstalled(page);
    await page.getByRole("button", { name: "To the start" }).click();
    await page.locator(START).waitFor();
    if (run === 0) for (const line of await installability(page)) print(line);
    await page.close();
    again.push(await laterLoad(await openPage(launched.context), served.url));
    await launched.close();
    await served.close();
    launched = await launchBrowser({ profile });
    const anew = await openPage(launched.context);
    // The browser's own start, which loads pages of its own, is not the app's.
    await anew.waitForTimeout(BROWSER_STARTS_MS);
    offline.push(await laterLoad(anew, served.url));
    await launched.close();
    await rm(profile, { recursive: true, force: true, maxRetries: 5 });
  }
  const of = (list: readonly Load[], name: keyof Load) => median(list.map((load) => load[name]));
  const phraseScript = median(first.map((load) => load.phraseScript));
  print(
    `script until the first page answers: ${kB(of(first, "script"))}, everything ${kB(of(first, "all"))}`,
  );
  print(
    `script until a typed phrase is answered: ${kB(phraseScript)} (at most 200: ${aim(phraseScript <= 200_000)})`,
  );
  const report = (name: string, list: readonly Load[], most: number) =>
    print(
      `${name}: shown ${ms(of(list, "shown"))}, answers a tap ${ms(of(list, "answers"))}, worst ${ms(Math.max(...list.map(({ answers }) => answers)))}` +
        `, longest task ${ms(of(list, "longest"))} (below ${most}: ${aim(of(list, "answers") < most)})`,
    );
  report("first time", first, 2000);
  print(`first time, a typed phrase is answered: ${ms(median(first.map(({ phraseAt }) => phraseAt)))}`);
  report("again", again, 1000);
  report("again, server gone, browser started anew", offline, 1000);
}

const PHRASES = [
  "high fire CO2 nine point two",
  "CO forty five",
  "low fire",
  "CO2 nine point one",
  "note it hums",
];

/** A long visit: how long the page is stuck while it is opened, scrolled and added to. */
async function longLog(): Promise<void> {
  const entries = Number(args.entries);
  const served = await serveApp();
  const launched = await launchBrowser();
  const page = await openPage(launched.context);
  const phone = await asPhone(page, [".face"], SLOWER, false);
  await page.goto(served.url);
  await page.locator(CAUTIONS).check();
  await page.locator(ONWARD).click();
  const bundle = exportVisit(longVisit(entries, { id: "long-visit" }));
  const file = { name: "long.json", mimeType: "application/json", buffer: Buffer.from(bundle) };
  await page.locator("input[type=file]").setInputFiles(file);
  await page.locator(".notice li").first().waitFor();
  const stuck = async (name: string, work: () => Promise<unknown>) => {
    const since = await pageTime(page);
    await work();
    await page.waitForTimeout(500);
    const longest = await longestTask(page, since);
    print(`${entries} entries, ${name}: longest task ${ms(longest)} (at most 100: ${aim(longest <= 100)})`);
  };
  const scroll = async () => {
    await page.mouse.move(200, 500);
    for (let i = 0; i < 40; i += 1) await page.mouse.wheel(0, 600);
    for (let i = 0; i < 40; i += 1) await page.mouse.wheel(0, -600);
  };
  await stuck("opened at the boiler", async () => {
    await page.getByRole("button", { name: "Go on" }).first().click();
    await phone.drawn(".face");
  });
  await stuck("log scrolled", scroll);
  await stuck("20 phrases answered", async () => {
    for (let i = 0; i < 20; i += 1) {
      await page.getByLabel("Or type").fill(PHRASES[i % PHRASES.length] ?? "");
      await page.getByLabel("Or type").press("Enter");
      await page.locator(`main[aria-busy="false"]`).waitFor();
    }
  });
  await page.goto(`${served.url}#/afterwards/long-visit`);
  await stuck("afterwards opened", () => page.locator("h1").waitFor());
  await stuck("afterwards scrolled", scroll);
  await launched.close();
  await served.close();
}

print(
  args["as-is"]
    ? "this machine's own speed"
    : `a phone ${PHONE.slower} times as slow, ${PHONE.latencyMs} ms, ${PHONE.downKbps} kbit/s down, ${PHONE.upKbps} up; medians of ${RUNS}`,
);
if (args.only !== "long") await loads();
if (args.only !== "loads") await longLog();
