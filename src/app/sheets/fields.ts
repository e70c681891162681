import { Fuel } from "../../measure/firing.ts";
import { QuantityId, quantityOf } from "../../measure/quantity.ts";
import { FUEL_NAMES } from "../../record/wording.ts";

/** The name of each step of a path, where it needs more than the path says. */
const NAMES: ReadonlyMap<string, string> = new Map(
  Object.entries({
    title: "Title",
    "source.document": "Document",
    "source.edition": "Edition",
    "source.page": "Page",
    "source.enteredBy": "Entered by",
    "source.enteredOn": "Entered on",
    fuels: "Gases",
    closing: "Closing checks",
    "adjusters.high": "High-fire screw",
    "adjusters.low": "Low-fire screw",
    "settleSeconds.high": "Settling, high fire",
    "settleSeconds.low": "Settling, low fire",
    high: "high fire",
    low: "low fire",
    static: "static gas pressure",
    dynamic: "dynamic gas pressure",
    maxDrop: "largest fall of gas pressure",
    min: "from",
    max: "up to",
    value: "",
    belowHigh: "below high fire",
    "gas-pressure-inlet": "",
    co2Rises: "which way raises CO2",
    percentPerTurn: "CO2 for a turn",
    largestStepTurns: "largest step",
  }),
);

/** A field's name as the form has it, from its place in the sheet: "Natural gas, high fire, CO2, from". */
export function fieldName(path: string): string {
  const steps = path.split(".");
  const known = (step: string) => NAMES.get(step) ?? quantity(step) ?? fuel(step) ?? step;
  const whole = NAMES.get(path);
  if (whole !== undefined) return whole;
  const names =
    steps[0] === "fuels"
      ? steps.slice(1).map(known)
      : [NAMES.get(steps.slice(0, 2).join(".")) ?? steps.slice(0, 2).join("."), ...steps.slice(2).map(known)];
  return names.filter((name) => name !== "").join(", ");
}

function quantity(step: string): string | undefined {
  const id = QuantityId.safeParse(step);
  return id.success ? quantityOf(id.data).name : undefined;
}

function fuel(step: string): string | undefined {
  const id = Fuel.safeParse(step);
  return id.success ? FUEL_NAMES[id.data] : undefined;
}
