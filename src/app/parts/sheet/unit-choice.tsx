import { shownUnit, type Unit } from "../../../measure/unit.ts";

interface UnitChoiceProps {
  readonly name: string;
  readonly units: readonly Unit[];
  readonly unit: Unit;
  readonly onChange: (unit: Unit) => void;
}

/** A unit by its name in the trade. */
export function UnitChoice({ name, units, unit, onChange }: UnitChoiceProps) {
  return (
    <select
      aria-label={name}
      value={unit}
      onChange={(event) => {
        const chosen = units.find((one) => one === event.currentTarget.value);
        if (chosen !== undefined) onChange(chosen);
      }}
    >
      {units.map((one) => (
        <option key={one} value={one}>
          {shownUnit(one)}
        </option>
      ))}
    </select>
  );
}
