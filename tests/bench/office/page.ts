import { mkdir, mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { exportVisit } from "../../../src/record/bundle.ts";
import { type App, withApp } from "../../browser/app.ts";
import { inventedVisit } from "../../support/invented-visits.ts";

/** What was measured of the office page, ms. */
export interface PageFigures {
  /** From the files' choice until all of them were gone through. */
  readonly takenIn: number;
  /** The same files again: nothing changes. */
  readonly again: number;
  /** From opening the address in a new page until the list was drawn. */
  readonly opened: number;
  /** From each key of a search until the list it narrows was drawn: the middle, and the worst. */
  readonly filtered: number;
  readonly filteredWorst: number;
  /** The same for a column sorted by. */
  readonly sorted: number;
  /** How long the page was stuck at worst while files were taken in. */
  readonly stuck: number;
}

/** What the office page is to do with 2,000 visits. */
const AIMS = { visits: 2000, entries: 100, takenInMs: 20_000, filteredMs: 100 } as const;

/** Measures the page and prints what came of it, a line a figure. Whether the aims were reached. */
export async function benchPage(print: (line: string) => void): Promise<boolean> {
  const { visits, entries, takenInMs, filteredMs } = AIMS;
  const figures = await measurePage(visits, entries, print);
  const s = (ms: number) => `${(ms / 1000).toFixed(1)} s`;
  const aim = (isReached: boolean) => (isReached ? "reached" : "missed");
  print(`taken in: ${s(figures.takenIn)} (below ${s(takenInMs)}: ${aim(figures.takenIn < takenInMs)})`);
  print(`the same files again: ${s(figures.again)}`);
  print(`opened in a new page: ${s(figures.opened)}`);
  print(
    `filtered, from a key to the drawn list: ${figures.filtered.toFixed(0)} ms, worst ${figures.filteredWorst.toFixed(0)} ms (below ${filteredMs}: ${aim(figures.filteredWorst < filteredMs)})`,
  );
  print(`sorted by a column, worst: ${figures.sorted.toFixed(0)} ms`);
  print(`longest task of the page while files were taken in: ${figures.stuck.toFixed(0)} ms`);
  return figures.takenIn < takenInMs && figures.filtered < filteredMs;
}

/** The built page with so many visits of so many entries, in real Chromium; `print` tells how far it is. */
async function measurePage(
  visits: number,
  entries: number,
  print: (line: string) => void,
): Promise<PageFigures> {
  const folder = await mkdtemp(join(tmpdir(), "burnerside-office-"));
  try {
    const files = await writeBundles(folder, visits, entries);
    print(`${visits} bundles of ${entries} entries written`);
    return await withApp({}, (app) => measure(app, files));
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

async function writeBundles(folder: string, visits: number, entries: number): Promise<string[]> {
  await mkdir(folder, { recursive: true });
  const files: string[] = [];
  for (let number = 0; number < visits; number += 1) {
    const file = join(folder, `visit-${number}.json`);
    await writeFile(file, exportVisit(inventedVisit(number, entries)));
    files.push(file);
  }
  return files;
}

const WORDS = ["lane 1", "t3", "inv 000", "natural", "gasket", "nothing like it"];
const COLUMNS = ["Place", "As left", "High fire CO2, %", "Day"];

async function measure(app: App, files: readonly string[]): Promise<PageFigures> {
  const { page } = app;
  await page.setViewportSize({ width: 1024, height: 768 });
  await open(app);
  await page.evaluate(watchTasks);
  const takenIn = await takeIn(page, files);
  const stuck = await page.evaluate(() => Reflect.get(globalThis, "longest") as number);
  const again = await takeIn(page, files);
  const opened = await timed(() => open(app));
  const filtered: number[] = [];
  const search = page.getByLabel("Search");
  for (const words of WORDS) {
    for (let length = 1; length <= words.length; length += 1) {
      const drawn = page.evaluate(untilDrawn, "input");
      await search.fill(words.slice(0, length));
      filtered.push(await drawn);
    }
  }
  await search.fill("");
  const sorted: number[] = [];
  for (const name of COLUMNS) {
    const drawn = page.evaluate(untilDrawn, "click");
    await page.getByRole("button", { name, exact: true }).click();
    sorted.push(await drawn);
  }
  return {
    takenIn,
    again,
    opened,
    filtered: middle(filtered),
    filteredWorst: Math.max(...filtered),
    sorted: Math.max(...sorted),
    stuck,
  };
}

async function open(app: App): Promise<void> {
  await app.page.goto("about:blank");
  await app.page.goto(`${app.served.url}#/office`);
  await app.page.locator(".office h2").first().waitFor();
}

async function takeIn(page: Page, files: readonly string[]): Promise<number> {
  const since = performance.now();
  await page
    .locator("input[type=file]")
    .first()
    .setInputFiles([...files]);
  await page.getByRole("button", { name: "Stop" }).waitFor();
  await page.getByText("gone through.").first().waitFor({ timeout: 600_000 });
  const ms = performance.now() - since;
  await page.locator(".taking-in").getByRole("button", { name: "Close" }).click();
  return ms;
}

async function timed(work: () => Promise<unknown>): Promise<number> {
  const since = performance.now();
  await work();
  return performance.now() - since;
}

/** Runs in the page: ms from the next event of a kind until what it changed was drawn. */
function untilDrawn(kind: string): Promise<number> {
  return new Promise((resolve) => {
    addEventListener(
      kind,
      (event) =>
        requestAnimationFrame(() => setTimeout(() => resolve(performance.now() - event.timeStamp), 0)),
      { capture: true, once: true },
    );
  });
}

/** Runs in the page: notes its longest task since files were chosen; before that the browser itself is busy with them. */
function watchTasks(): void {
  Reflect.set(globalThis, "longest", 0);
  let since = Number.POSITIVE_INFINITY;
  addEventListener(
    "change",
    ({ timeStamp }) => {
      since = timeStamp;
    },
    { capture: true, once: true },
  );
  new PerformanceObserver((list) => {
    for (const { startTime, duration } of list.getEntries())
      if (startTime >= since)
        Reflect.set(globalThis, "longest", Math.max(Reflect.get(globalThis, "longest"), duration));
  }).observe({ type: "longtask" });
}

function middle(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;
}
