/**
 * The office's book at scale, and the office page: `npm run bench:office`. What is measured: README.md beside this file. After
 * `--`: `--only load|page`, `--bundles 1000,10000`, `--engine embedded|server`,
 * `--signed` for bundles that are linked and signed.
 */
import { parseArgs } from "node:util";
import { benchLoad } from "./office/load.ts";
import { benchPage } from "./office/page.ts";

const { values } = parseArgs({
  options: {
    only: { type: "string" },
    bundles: { type: "string", default: "1000,10000" },
    engine: { type: "string" },
    signed: { type: "boolean", default: false },
  },
});

if (values.only !== "page")
  await benchLoad(values.bundles.split(",").map(Number), values.engine ?? null, values.signed);
if (values.only !== "load") await benchPage((line) => process.stdout.write(`${line}\n`));
