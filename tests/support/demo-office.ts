import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { takeTurn } from "../../src/answer/turn.ts";
import { exportVisit } from "../../src/record/bundle.ts";
import { readSheet } from "../../src/record/sheet-file.ts";
import { Details } from "../../src/visit/details.ts";
import { withEntries } from "../../src/visit/fold.ts";
import { type Visit, VisitHead } from "../../src/visit/visit.ts";
import { upTo } from "./office.ts";
import { parser } from "./talk.ts";

// The bundles of demo-data/office, made from the dictated texts beside them: npx tsx tests/support/demo-office.ts

const FOLDER = "demo-data/office";

/** Entries that the early export of a visit that went on has. */
const EARLY = { name: "otterfold-mill-2026", entries: 12 };

/** Every bundle by its file's name. */
export function demoOffice(): ReadonlyMap<string, string> {
  const names = readdirSync(FOLDER).flatMap((file) => (file.endsWith(".txt") ? [file.slice(0, -4)] : []));
  const visits = names.map((name) => [name, dictated(name)] as const);
  const early = visits.flatMap(([name, visit]) =>
    name === EARLY.name ? [[`${name}-early`, upTo(visit, EARLY.entries)] as const] : [],
  );
  return new Map([...visits, ...early].map(([name, visit]) => [`${name}.visit.json`, exportVisit(visit)]));
}

/** A visit as its text has it: `name: value` lines, an empty line, then `time TAB phrase` lines. */
function dictated(name: string): Visit {
  const [about = "", ...parts] = readFileSync(`${FOLDER}/${name}.txt`, "utf8").split("\n\n");
  const fields = new Map(about.split("\n").map((line) => line.split(": ") as [string, string]));
  const lines = parts.join("\n").trim().split("\n");
  const [startedAt = ""] = lines[0]?.split("\t") ?? [];
  const sheet = readSheet(readFileSync(`demo-data/sheets/${fields.get("sheet")}.json`, "utf8"));
  if (!sheet.ok) throw new Error(`${name}: ${JSON.stringify(sheet.problems)}`);
  const head = VisitHead.parse({
    id: name,
    title: fields.get("title"),
    startedAt,
    zone: fields.get("zone"),
    fuel: fields.get("fuel"),
    units: fields.get("units"),
    sheet: sheet.sheet,
  });
  const details = Details.parse({
    appliance: fields.get("appliance"),
    place: fields.get("place"),
    technician: fields.get("technician"),
    licence: fields.get("licence"),
    firm: fields.get("firm"),
    instrument: {
      name: fields.get("instrument"),
      serial: fields.get("serial"),
      calibratedOn: fields.get("calibrated"),
    },
  });
  let ids = 0;
  const newId = () => `${name}-${ids++}`;
  const first = {
    id: newId(),
    seq: 0,
    at: startedAt,
    engine: "typed",
    phrase: "",
    said: "",
    confidence: 1,
    body: { kind: "details", details },
  } as const;
  let visit = withEntries({ format: "burnerside-visit/1", head, entries: [] }, [first]);
  for (const line of lines) {
    const [at = "", text = ""] = line.split("\t");
    visit = takeTurn(parser, visit, { text, engine: "typed", confidence: 1, sound: null }, at, newId).visit;
  }
  return visit;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) {
  for (const [file, text] of demoOffice()) writeFileSync(`${FOLDER}/${file}`, text);
}
