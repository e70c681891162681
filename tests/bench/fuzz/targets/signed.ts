import { readFileSync } from "node:fs";
import { importVisit } from "../../../../src/record/bundle.ts";
import { examine } from "../../../../src/record/integrity/examine.ts";
import { EXAMINER } from "../../../support/cryptography.ts";
import { same } from "../expect.ts";
import { brokenJson } from "../json.ts";
import { broken } from "../mutate.ts";
import { type Target, target } from "../target.ts";

const TEXT = readFileSync(
  new URL("../../../../demo-data/visits/otterfold-mill.signed.visit.json", import.meta.url),
  "utf8",
);
const MADE = importVisit(TEXT);
if (!MADE.ok || (await examine(MADE.visit, EXAMINER)).kind !== "whole")
  throw new Error("Expected a signed visit that is whole among the demo data.");
const { head: HEAD, entries: ENTRIES } = MADE.visit;

export const SIGNED: readonly Target[] = [
  target<string>({
    name: "signed log, changed",
    inputs: 2_500,
    draw: (chance) => (chance.is(0.85) ? brokenJson(chance, JSON.parse(TEXT)) : broken(chance, TEXT, [TEXT])),
    read: async (text) => {
      const read = importVisit(text);
      if (!read.ok) return "refused";
      const { head, entries } = read.visit;
      const finding = await examine(read.visit, EXAMINER);
      if (finding.kind === "whole")
        same({ head, entries }, { head: HEAD, entries: ENTRIES }, "told to be whole, but changed");
      if (finding.kind === "in-part") {
        const signed = [entries, ENTRIES].map((all) => all.slice(0, finding.signedEntries));
        same(
          { head, entries: signed[0] },
          { head: HEAD, entries: signed[1] },
          "told to be signed, but changed",
        );
      }
      return "accepted";
    },
  }),
];
