import { SingleBar } from "cli-progress";
import { terminalText } from "../terminal.ts";
import type { Loaded } from "./load.ts";

/** Where a load shows how far it is. */
export interface Progress {
  update(loaded: Loaded): void;
  /** A line of its own, above the bar. */
  say(line: string): void;
  stop(): void;
}

const LINE_EVERY_MS = 5000;

/**
 * A bar on a terminal, elsewhere a plain line (`say`) every five seconds. `total` is how many bytes there are to read, 0 where that
 * is not known; `now` milliseconds that only go up.
 */
export function showProgress(
  say: (line: string) => void,
  out: NodeJS.WriteStream,
  total: number,
  now: () => number,
): Progress {
  const started = now();
  const figures = (loaded: Loaded) => figuresOf(loaded, now() - started);
  return out.isTTY && total > 0 ? bar(out, total, figures) : lines(say, total, now, figures);
}

function bar(out: NodeJS.WriteStream, total: number, figures: (loaded: Loaded) => string): Progress {
  const shown = new SingleBar({
    stream: out,
    format: "office: [{bar}] {percentage} %  {figures}",
    barCompleteChar: "=",
    barIncompleteChar: " ",
    barsize: 30,
    hideCursor: true,
    gracefulExit: false,
    etaAsynchronousUpdate: false,
  });
  let last: Loaded | null = null;
  shown.start(total, 0, { figures: "" });
  const draw = (loaded: Loaded) => shown.update(Math.min(loaded.bytes, total), { figures: figures(loaded) });
  return {
    update: (loaded) => {
      last = loaded;
      draw(loaded);
    },
    say: (line) => {
      out.write(`\r\u001b[K${terminalText(line)}\n`);
      if (last) draw(last);
    },
    stop: () => shown.stop(),
  };
}

function lines(
  say: (line: string) => void,
  total: number,
  now: () => number,
  figures: (loaded: Loaded) => string,
): Progress {
  let told = now();
  return {
    update: (loaded) => {
      if (now() - told < LINE_EVERY_MS) return;
      told = now();
      const share = total > 0 ? `${Math.floor((100 * Math.min(loaded.bytes, total)) / total)} %, ` : "";
      say(`office: ${share}${figures(loaded)}`);
    },
    say,
    stop: () => {},
  };
}

const count = new Intl.NumberFormat("en-GB");

/** "1,280 bundles, 128,000 entries, 31,240 a second". */
function figuresOf({ seen, entries }: Loaded, ms: number): string {
  const speed = ms > 0 ? Math.round((1000 * entries) / ms) : 0;
  return `${count.format(seen)} bundles, ${count.format(entries)} entries, ${count.format(speed)} a second`;
}
