import { details } from "../../combustion/details.ts";
import { AIR_O2_PERCENT } from "../../combustion/dilution.ts";
import { type FlueGas, type FlueGasInput, flueGas } from "../../combustion/flue-gas.ts";
import { gasInput } from "../../combustion/gas-input.ts";
import { SIEGERT } from "../../combustion/siegert.ts";
import { waterHeat } from "../../combustion/water-heat.ts";
import { situationOf } from "../../judge/situation.ts";
import { verdictOf } from "../../judge/verdict.ts";
import { Firing, type Fuel, type UnitSystem } from "../../measure/firing.ts";
import { type QuantityId, quantityOf } from "../../measure/quantity.ts";
import { shownNumber, shownValue } from "../../measure/show.ts";
import { convert, shownUnit, type Unit } from "../../measure/unit.ts";
import { phasesOf } from "../../visit/phase.ts";
import type { PhaseRow, StandingReading, VisitState } from "../../visit/state.ts";
import { firingName } from "../wording.ts";
import { type Block, cell } from "./parts.ts";

/** What follows from the readings as left at one firing: a figure by its name. */
export interface Figures {
  readonly firing: Firing;
  readonly values: ReadonlyMap<FigureName, string>;
  /** Those that come from a reading before its settle time was over. */
  readonly early: ReadonlySet<FigureName>;
}

/** The figures in order, each with the formula that it comes from. */
const FIGURES = {
  "Taken from": "readings as left",
  "Excess air": `O2 and CO2 of complete combustion in dry air of ${shownNumber(AIR_O2_PERCENT)} % O2`,
  "O2 from CO2": "O2 = 20.95 (1 − CO2/CO2max), dry",
  "CO2 from O2": "CO2 = CO2max (1 − O2/20.95), dry",
  "CO air-free": "CO × 20.9/(20.9 − O2)",
  "CO/CO2 ratio": "both in vol-%",
  "Water dew point": "water of combustion, saturation by IAPWS-IF97",
  "Flue loss, Siegert": "of net; 1. BImSchV 2010: (tF − tA)(A/(21 − O2) + B)",
  "Stack loss, composition": "of gross; ISO 6976:2016, NASA-7 heat capacities",
  "Combustion efficiency": "100 % less stack loss; no casing loss",
  "Gas input, meter": "volume at 15 °C × ISO 6976:2016 heating value",
  "Heat to the water": "flow × density × enthalpy rise, IAPWS-IF97",
} as const;
export type FigureName = keyof typeof FIGURES;

/** What the fuel is taken as: figures of another gas of that name differ a little. */
const TAKEN_AS: Readonly<Record<Fuel, string>> = {
  "natural-gas":
    "Natural gas is taken as the pipeline gas of the worked example of AGA Report No. 5 (1034.8 Btu/ft³ gross).",
  propane: "Propane is taken as the pure gas.",
};

const FAMILY = { "natural-gas": "natural-gas", propane: "lpg" } as const satisfies Record<
  Fuel,
  keyof typeof SIEGERT
>;

/** The derived figures of a visit as a table; where too little was read, that is said. `now` is ISO 8601. */
export function derivedBlocks(state: VisitState, now: string): Block[] {
  const { fuel } = state.head;
  const all = Firing.options
    .map((firing) => figuresAt(state, firing, now))
    .filter(({ values }) => values.size > 0);
  if (all.length === 0) return [{ kind: "text", text: "Too little was read as left to derive a figure." }];
  const names = figureNames().filter((name) => all.some(({ values }) => values.has(name)));
  const { a, b } = SIEGERT[FAMILY[fuel]];
  const formula = (name: FigureName) =>
    name === "Flue loss, Siegert" ? `${FIGURES[name]}, A ${a}, B ${b}` : FIGURES[name];
  return [
    {
      kind: "table",
      columns: ["Figure", ...all.map(({ firing }) => firingName(firing)), "Formula"],
      rows: names.map((name) => [
        cell(name),
        ...all.map(({ values, early }) => cell(values.get(name) ?? "–", "", early.has(name) ? "wait" : null)),
        cell(formula(name)),
      ]),
    },
    { kind: "text", text: TAKEN_AS[fuel] },
  ];
}

function figureNames(): FigureName[] {
  return Object.keys(FIGURES).filter((name): name is FigureName => name in FIGURES);
}

/** What follows from the readings as left at a firing. What was not read is not there, and nothing is guessed. */
export function figuresAt(state: VisitState, firing: Firing, now: string): Figures {
  const rows = phasesOf(state);
  const values = new Map<FigureName, string>();
  const early = new Set<FigureName>();
  const put = (name: FigureName, text: string | null) => {
    if (text !== null) values.set(name, text);
  };
  const left: Left = (quantity) => leftOf(rows, quantity, firing);
  const flue = flueGasAt(state, left);
  if (flue) {
    const { input, result, used } = flue;
    const s = situationOf(state, [], now);
    const isEarly = used.some((r) => verdictOf(s, r).verdict === "wait");
    put("Taken from", used.map(inShort).join(", "));
    put("Excess air", `${result.excessAirPercent.toFixed(0)} %, λ ${result.lambda.toFixed(2)}`);
    if (input.o2 === undefined) put("O2 from CO2", `${result.o2.toFixed(1)} %`);
    else put("CO2 from O2", `${result.co2.toFixed(1)} %`);
    put("CO air-free", result.coAirFree === null ? null : `${result.coAirFree.toFixed(0)} ppm`);
    put("CO/CO2 ratio", result.coCo2Ratio === null ? null : result.coCo2Ratio.toFixed(4));
    put(
      "Water dew point",
      result.dewPoint === null ? null : temperature(result.dewPoint, scaleOf(used, state.head.units)),
    );
    const { siegertLossPercent } = details(input, result, state.head.fuel);
    put("Flue loss, Siegert", siegertLossPercent === null ? null : `${siegertLossPercent.toFixed(1)} %`);
    put("Stack loss, composition", lossSaid(result));
    put("Combustion efficiency", efficiencySaid(result));
    if (isEarly) for (const name of values.keys()) early.add(name);
  }
  put("Gas input, meter", inputSaid(state, left));
  put("Heat to the water", waterSaid(state, left));
  return { firing, values, early };
}

/** What stands as left of a quantity at the firing that is asked about, or of none where it was read without one. */
type Left = (quantity: QuantityId) => StandingReading | null;

function leftOf(rows: readonly PhaseRow[], quantity: QuantityId, firing: Firing): StandingReading | null {
  const of = (where: Firing | null) =>
    rows.findLast(
      // With the burner off nothing burns.
      (row) =>
        row.quantity === quantity &&
        row.firing === where &&
        row.condition !== "static" &&
        row.asLeft !== null,
    )?.asLeft;
  return of(firing) ?? of(null) ?? null;
}

interface Reckoned {
  readonly input: FlueGasInput;
  readonly result: FlueGas;
  readonly used: readonly StandingReading[];
}

/** Temperatures that cannot be right together leave the flue gas itself as it was read. */
function flueGasAt({ head: { fuel } }: VisitState, left: Left): Reckoned | null {
  const [o2, co2, co] = [left("o2"), left("co2"), left("co")];
  const by = o2 ?? co2;
  if (!by) return null;
  const [flue, air, altitude] = [left("flue-temperature"), left("air-temperature"), left("altitude")];
  const bare = {
    fuel,
    co: valueIn(co, "[ppm]"),
    altitude: valueIn(altitude, "m"),
    ...(by === o2 ? { o2: by.reading.value } : { co2: by.reading.value }),
  };
  const warm = {
    ...bare,
    flueTemperature: valueIn(flue, "Cel"),
    airTemperature: valueIn(air, "Cel"),
  };
  const readings = [by, co, altitude];
  const tries = [
    ...(flue && air ? [{ input: warm, read: [...readings, flue, air] }] : []),
    { input: bare, read: readings },
  ];
  for (const { input, read } of tries) {
    const found = flueGas(input);
    if (found.ok) return { input, result: found.flueGas, used: read.filter((r) => r !== null) };
  }
  return null;
}

function valueIn(r: StandingReading | null, unit: Unit): number | undefined {
  return r ? convert(r.reading.value, r.reading.unit, unit) : undefined;
}

function inShort({ reading: { quantity, value, unit } }: StandingReading): string {
  return `${quantityOf(quantity).name} ${shownValue(value, unit)}`;
}

/** The scale that the flue's temperature was said in, so that both can be compared; else that of the visit's units. */
function scaleOf(used: readonly StandingReading[], units: UnitSystem): "[degF]" | "Cel" {
  const said = used.find(({ reading }) => reading.quantity === "flue-temperature")?.reading.unit;
  if (said === "[degF]" || said === "Cel") return said;
  return units === "us" ? "[degF]" : "Cel";
}

function temperature(celsius: number, unit: "[degF]" | "Cel"): string {
  return `${convert(celsius, "Cel", unit).toFixed(unit === "Cel" ? 1 : 0)} ${shownUnit(unit)}`;
}

function lossSaid({ lossDryPercent, lossLatentPercent }: FlueGas): string | null {
  if (lossDryPercent === null || lossLatentPercent === null) return null;
  return `${lossDryPercent.toFixed(1)} % heat, ${lossLatentPercent.toFixed(1)} % vapour`;
}

function efficiencySaid({ efficiencyNetPercent, efficiencyGrossPercent }: FlueGas): string | null {
  if (efficiencyNetPercent === null || efficiencyGrossPercent === null) return null;
  return `${efficiencyNetPercent.toFixed(1)} % net, ${efficiencyGrossPercent.toFixed(1)} % gross`;
}

/** At the gas pressure and altitude that were read. */
function inputSaid({ head }: VisitState, left: Left): string | null {
  const clocked = left("gas-meter-time");
  if (!clocked?.reading.dial) return null;
  const { value, dial } = clocked.reading;
  const found = gasInput({
    fuel: head.fuel,
    seconds: value,
    dial,
    gasPressure: valueIn(left("gas-pressure-inlet"), "mbar"),
    altitude: valueIn(left("altitude"), "m"),
  });
  if (!found.ok) return null;
  const { inputGross, inputNet, inputGrossBtuPerHour, inputNetBtuPerHour } = found.gasInput;
  return `${power(head.units, inputGross, inputGrossBtuPerHour)} gross, ${power(head.units, inputNet, inputNetBtuPerHour)} net`;
}

function waterSaid({ head }: VisitState, left: Left): string | null {
  const flow = valueIn(left("water-flow"), "L/min");
  const supplyTemperature = valueIn(left("supply-temperature"), "Cel");
  const returnTemperature = valueIn(left("return-temperature"), "Cel");
  if (flow === undefined || supplyTemperature === undefined || returnTemperature === undefined) return null;
  const found = waterHeat({ flow, supplyTemperature, returnTemperature });
  return found.ok ? power(head.units, found.waterHeat.waterHeat, found.waterHeat.waterHeatBtuPerHour) : null;
}

/** To two figures or three: a meter's dial and a stopwatch tell no more. */
function power(units: UnitSystem, kilowatts: number, btuPerHour: number): string {
  if (units === "us") return `${(1000 * Math.round(btuPerHour / 1000)).toLocaleString("en-US")} BTU/h`;
  return `${kilowatts < 9.95 ? kilowatts.toFixed(1) : kilowatts.toFixed(0)} kW`;
}
