import { dusted, limitAsSaid } from "../../judge/resolution.ts";
import { situationOf } from "../../judge/situation.ts";
import { Firing } from "../../measure/firing.ts";
import { shownNumber, shownValue } from "../../measure/show.ts";
import { shownUnit, type Unit } from "../../measure/unit.ts";
import type { Reading } from "../../visit/entry.ts";
import type { VisitState } from "../../visit/state.ts";
import { NOT_FOUND, type PhaseLine, type PhaseValue, phaseLines } from "../phases.ts";
import { type Block, type Cell, cell } from "./parts.ts";

/** As found and as left of everything but the gas supply, with limits and verdicts. `now` is ISO 8601. */
export function readingBlocks(state: VisitState, now: string): Block[] {
  const lines = phaseLines(state, now).filter(({ quantity }) => quantity !== "gas-pressure-inlet");
  if (lines.length === 0) return [{ kind: "text", text: "Nothing was read." }];
  return [table(lines)];
}

/** The gas supply, static and dynamic, and how far it falls. */
export function pressureBlocks(state: VisitState, now: string): Block[] {
  const lines = phaseLines(state, now).filter(({ quantity }) => quantity === "gas-pressure-inlet");
  if (lines.length === 0) return [{ kind: "text", text: "The gas pressure was not read." }];
  return [table(lines, dropRows(state, now))];
}

function table(lines: readonly PhaseLine[], more: readonly (readonly Cell[])[] = []): Block {
  return {
    kind: "table",
    columns: ["Reading", "Limit", "As found", "As left"],
    rows: [
      ...lines.map(({ name, limit, found, left }) => [
        cell(name),
        cell(limit || "none known"),
        valueCell(found, NOT_FOUND),
        valueCell(left, "not read"),
      ]),
      ...more,
    ],
  };
}

function valueCell(of: PhaseValue | null, otherwise: string): Cell {
  if (!of) return cell(otherwise);
  const notes = [
    of.note,
    of.assumed.length > 0 ? `${of.assumed.join(" and ")} assumed` : "",
    of.was === null ? "" : `mended, was ${of.was}`,
  ];
  return cell(of.value, notes.filter((note) => note !== "").join("; "), of.verdict);
}

/** The largest fall from the last static pressure to the last dynamic one of a firing, in the unit and as fine as that was said. */
function dropRows(state: VisitState, now: string): Cell[][] {
  const last = (isOf: (reading: Reading) => boolean) =>
    state.readings.findLast(({ reading }) => reading.quantity === "gas-pressure-inlet" && isOf(reading))
      ?.reading;
  const still = last(({ condition }) => condition === "static");
  if (!still) return [];
  const limit = situationOf(state, [], now).limits?.["gas-pressure-inlet"]?.maxDrop;
  const drops = [...Firing.options, null].flatMap((firing) => {
    const running = last((reading) => reading.condition === "dynamic" && reading.firing === firing);
    if (!running) return [];
    const asSaid = (max: number, unit: Unit) =>
      limitAsSaid({ max, unit }, running.quantity, running.value, running.unit).max ?? max;
    const drop = dusted(asSaid(still.value, still.unit) - running.value);
    const most = limit ? asSaid(limit.value, limit.unit) : null;
    return [{ drop, most, unit: running.unit, share: drop / (asSaid(still.value, still.unit) || 1) }];
  });
  const [worst] = drops.sort((a, b) => b.share - a.share);
  if (!worst) return [];
  const { drop, most, unit } = worst;
  const name = "Falls from static to dynamic by";
  const limitSaid = most === null ? "none known" : `up to ${shownNumber(most)} ${shownUnit(unit)}`;
  const verdict = most === null ? null : drop > most ? "fail" : "pass";
  return [[cell(name), cell(limitSaid), cell("–"), cell(shownValue(drop, unit), "", verdict)]];
}
