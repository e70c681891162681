/**
 * Hours of listening, with memory flat: `npm run bench:soak [-- --only day|page --hours N --stretches N]`. The day: 8 simulated hours
 * unless told otherwise, in Node, as fast as the machine computes, a visit an hour. The page: stretches of five minutes, in Chromium.
 * Exit status 1 where memory grew, nothing was heard, or anything was held back.
 */
import { parseArgs } from "node:util";
import { soakDay } from "./soak/day.ts";
import { soakPage } from "./soak/page.ts";

const { values: args } = parseArgs({
  options: {
    only: { type: "string" },
    hours: { type: "string", default: "8" },
    stretches: { type: "string", default: "12" },
  },
});
const print = (line: string): void => void process.stdout.write(`${line}\n`);

const day = args.only === "page" || (await soakDay(Number(args.hours), print));
const page = args.only === "day" || (await soakPage(Number(args.stretches), print));
process.exitCode = day && page ? 0 : 1;
