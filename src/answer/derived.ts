import { gasInput } from "../combustion/gas-input.ts";
import { waterHeat } from "../combustion/water-heat.ts";
import { latest } from "../judge/current.ts";
import { type Situation, situationOf } from "../judge/situation.ts";
import type { Firing } from "../measure/firing.ts";
import type { QuantityId } from "../measure/quantity.ts";
import { spokenNumber } from "../measure/show.ts";
import { sentence } from "../measure/text.ts";
import { convert, type Unit } from "../measure/unit.ts";
import type { Entry } from "../visit/entry.ts";
import type { StandingReading, VisitState } from "../visit/state.ts";

/** What the readings of an utterance come to with those before them: gas input of a clocked meter, heat to the water. */
export function derivedSaid(state: VisitState, since: readonly Entry[], now: string): string[] {
  const s = situationOf(state, since, now);
  const clocked = s.fresh.findLast(({ reading }) => reading.quantity === "gas-meter-time");
  const water = s.fresh.findLast(({ reading }) => WATER.has(reading.quantity));
  return [clocked ? inputSaid(s, clocked) : "", water ? waterSaid(s, water) : ""].filter(
    (text) => text !== "",
  );
}

const WATER: ReadonlySet<QuantityId> = new Set(["water-flow", "supply-temperature", "return-temperature"]);

/** At the gas pressure and altitude that the visit knows; the gas is taken as at 15 °C. */
function inputSaid(s: Situation, { reading: { value, dial, firing } }: StandingReading): string {
  if (!dial) return "";
  const result = gasInput({
    fuel: s.state.head.fuel,
    seconds: value,
    dial,
    gasPressure: valueIn(latest(s, "gas-pressure-inlet", firing), "mbar") ?? undefined,
    altitude: valueIn(latest(s, "altitude", null), "m") ?? undefined,
  });
  if (!result.ok) return "";
  const { inputGross, inputGrossBtuPerHour } = result.gasInput;
  return sentence(`gas input ${power(s, inputGross, inputGrossBtuPerHour)} gross`);
}

function waterSaid(s: Situation, { reading }: StandingReading): string {
  const firing: Firing | null = reading.firing ?? s.state.firing?.firing ?? null;
  const flow = valueIn(latest(s, "water-flow", null), "L/min");
  const supplyTemperature = valueIn(latest(s, "supply-temperature", firing), "Cel");
  const returnTemperature = valueIn(latest(s, "return-temperature", firing), "Cel");
  if (flow === null || supplyTemperature === null || returnTemperature === null) return "";
  const result = waterHeat({ flow, supplyTemperature, returnTemperature });
  if (!result.ok) return "";
  return sentence(
    `heat to the water ${power(s, result.waterHeat.waterHeat, result.waterHeat.waterHeatBtuPerHour)}`,
  );
}

function valueIn(r: StandingReading | null, unit: Unit): number | null {
  return r && convert(r.reading.value, r.reading.unit, unit);
}

/** To two figures or three: a meter's dial and a stopwatch tell no more. */
function power({ state }: Situation, kilowatts: number, btuPerHour: number): string {
  if (state.head.units === "us")
    return `about ${spokenNumber(1000 * Math.round(btuPerHour / 1000))} B T U per hour`;
  return `about ${spokenNumber(kilowatts < 9.95 ? Number(kilowatts.toFixed(1)) : Math.round(kilowatts))} kilowatts`;
}
