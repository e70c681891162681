import type { Visit } from "../../src/visit/visit.ts";
import { andThen, officeVisit } from "./office.ts";
import { check, co, co2, command, note, type Said, turn } from "./visits.ts";

const PLACES = ["Otterfold Mill", "Brühlgasse 4", "Quince Row school", "Larkrise hall", "Île de Plume"];
const PEOPLE = ["R. Thorn", "A. Weiß", "J. Okoro"];
const NOTES = [
  "replace the condensate trap gasket in two weeks",
  "come back before the heating season",
  "order a new ignition electrode",
  "cleaned the burner",
];

/** Invented visits of an office: four appliances and more, each visited once a year from 2023 on. Always the same. */
export function officeBook(count: number): Visit[] {
  const appliances = Math.max(1, Math.ceil(count / 4));
  return Array.from({ length: count }, (_, place) => bookVisit(place, appliances));
}

function bookVisit(place: number, appliances: number): Visit {
  const [which, year] = [place % appliances, Math.floor(place / appliances)];
  const found = 9.2 + 0.1 * ((which * 7 + year * 3) % 7);
  const left = Math.round((9.1 + 0.1 * ((which + year) % 3)) * 10) / 10;
  const script: Said[] = [
    [60, co2(Math.round(found * 10) / 10, "high"), co(60 + (which % 9) * 5, "high")],
    [120, turn(-0.25, "high")],
    [240, co2(left, "high"), co(40 + (which % 5), "high")],
    [300, turn(which % 2 === 0 ? 0.1 : -0.1, "low")],
    [400, co2(Math.round((left - 0.2) * 10) / 10, "low"), co(25, "low")],
    [500, co2(which % 6 === 5 ? 10.1 : left, "high")],
    [520, note(NOTES[(which + year) % NOTES.length] ?? "")],
    [600, check("low-fire-cap"), check("test-mode-off"), check("manometer-removed")],
  ];
  if (which % 3 !== 0)
    script.push([
      700,
      check("pressure-test-screw"),
      check("test-port"),
      check("panel"),
      check("leak-check"),
      command("finish-visit"),
    ]);
  const startedAt = new Date(
    Date.UTC(2023 + year, (which * 5 + year) % 12, 1 + (which % 27), 8, which % 60),
  ).toISOString();
  const visit = officeVisit(
    `book-${place}`,
    script,
    {
      appliance: which % 11 === 10 ? "" : `B-${100 + which}`,
      place: PLACES[which % PLACES.length] ?? "",
      technician: PEOPLE[(which + year) % PEOPLE.length] ?? "",
      licence: `L-${20 + ((which + year) % PEOPLE.length)}`,
      firm: "Tallowbeck Heating",
      instrument: { name: "Bench analyser", serial: "0417", calibratedOn: `${2023 + year}-01-09` },
    },
    { title: `Boiler ${100 + which}`, startedAt, zone: "Europe/Vienna" },
  );
  const moved = shifted(visit, Date.parse(startedAt));
  return which % 2 === 0 ? andThen(moved, { kind: "reviewed", by: "M. Office" }) : moved;
}

/** Scripts are played on one day: the entries follow the visit to its own. */
function shifted(visit: Visit, startMs: number): Visit {
  const first = Date.parse(visit.entries[0]?.at ?? "") - 60_000;
  return {
    ...visit,
    entries: visit.entries.map((entry) => ({
      ...entry,
      at: new Date(Date.parse(entry.at) - first + startMs).toISOString(),
    })),
  };
}
