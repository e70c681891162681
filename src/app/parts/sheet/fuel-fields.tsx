import type { Firing, Fuel } from "../../../measure/firing.ts";
import { quantityOf } from "../../../measure/quantity.ts";
import { FUEL_NAMES, firingName } from "../../../record/wording.ts";
import type { FuelDraft } from "../../sheets/draft.ts";
import type { SheetForm } from "../../sheets/form.ts";
import { Choice } from "../choice.tsx";
import { BandField } from "./band-field.tsx";
import { described, fieldId, Notes } from "./notes.tsx";
import { UnitChoice } from "./unit-choice.tsx";

interface FuelFieldsProps {
  readonly form: SheetForm;
  readonly fuel: Fuel;
  readonly limits: FuelDraft;
  readonly onRemove: () => void;
}

/** The limits for one gas. */
export function FuelFields({ form, fuel, limits, onRemove }: FuelFieldsProps) {
  const heading = `fuel-${fuel}`;
  const change = (part: Partial<FuelDraft>) =>
    form.change({ fuels: { ...form.draft.value.fuels, [fuel]: { ...limits, ...part } } });
  return (
    <section class="sheet-part" aria-labelledby={heading}>
      <div class="part-head">
        <h2 id={heading}>{FUEL_NAMES[fuel]}</h2>
        <button type="button" class="plain" onClick={onRemove}>
          Remove {FUEL_NAMES[fuel].toLowerCase()}
        </button>
      </div>
      <p>What is left empty is no limit: it will not be judged.</p>
      <Flue form={form} fuel={fuel} firing="high" limits={limits} onChange={change} />
      <Flue form={form} fuel={fuel} firing="low" limits={limits} onChange={change} />
      <Pressure form={form} fuel={fuel} limits={limits} onChange={change} />
    </section>
  );
}

interface PartProps {
  readonly form: SheetForm;
  readonly fuel: Fuel;
  readonly limits: FuelDraft;
  readonly onChange: (part: Partial<FuelDraft>) => void;
}

function Flue({ form, fuel, firing, limits, onChange }: PartProps & { readonly firing: Firing }) {
  const at = `fuels.${fuel}.${firing}`;
  const flue = limits[firing];
  const { way } = limits.low.co2;
  return (
    <div class="sheet-group">
      <h3>{firingName(firing)}</h3>
      {firing === "low" && (
        <Choice
          legend="CO2 at low fire is given"
          name={`${at}.way`}
          options={[
            ["band", "as a band of its own"],
            ["below-high", "as so much below high fire"],
          ]}
          value={way}
          onChange={(next) =>
            onChange({ low: { ...limits.low, co2: { ...limits.low.co2, min: "", max: "", way: next } } })
          }
        />
      )}
      <BandField
        form={form}
        path={`${at}.co2`}
        endsPath={firing === "low" && way === "below-high" ? `${at}.co2.belowHigh` : `${at}.co2`}
        quantity="co2"
        label={firing === "low" && way === "below-high" ? "CO2 below the high-fire value by" : "CO2"}
        band={flue.co2}
        onChange={(part) =>
          firing === "low"
            ? onChange({ low: { ...limits.low, co2: { ...limits.low.co2, ...part } } })
            : onChange({ high: { ...limits.high, co2: { ...limits.high.co2, ...part } } })
        }
      />
      {(["co", "o2"] as const).map((quantity) => (
        <BandField
          key={quantity}
          form={form}
          path={`${at}.${quantity}`}
          quantity={quantity}
          isOnlyUpper={quantity === "co"}
          label={quantity === "co" ? "CO" : "O2, where the paper gives it"}
          band={flue[quantity]}
          onChange={(part) => onChange({ [firing]: { ...flue, [quantity]: { ...flue[quantity], ...part } } })}
        />
      ))}
    </div>
  );
}

function Pressure({ form, fuel, limits, onChange }: PartProps) {
  const at = `fuels.${fuel}.gas-pressure-inlet`;
  const pressure = limits["gas-pressure-inlet"];
  const set = (part: Partial<typeof pressure>) =>
    onChange({ "gas-pressure-inlet": { ...pressure, ...part } });
  const dropPath = `${at}.maxDrop.value`;
  return (
    <div class="sheet-group" id={fieldId(at)} tabIndex={-1}>
      <h3>Gas pressure at the inlet</h3>
      {(["static", "dynamic"] as const).map((condition) => (
        <BandField
          key={condition}
          form={form}
          path={`${at}.${condition}`}
          quantity="gas-pressure-inlet"
          label={condition === "static" ? "Static: burner off" : "Dynamic: burner at high fire"}
          band={pressure[condition]}
          onChange={(part) => set({ [condition]: { ...pressure[condition], ...part } })}
        />
      ))}
      <fieldset class="band">
        <legend>Largest fall from static to dynamic</legend>
        <div class="band-ends">
          <label class="band-end">
            <span>at most</span>
            <input
              id={fieldId(dropPath)}
              type="text"
              inputMode="decimal"
              autocomplete="off"
              value={pressure.maxDrop.value}
              onInput={(event) => set({ maxDrop: { ...pressure.maxDrop, value: event.currentTarget.value } })}
              onBlur={() => form.touch(dropPath)}
              {...described(form, dropPath)}
            />
          </label>
          <UnitChoice
            name="Unit of the largest fall"
            units={quantityOf("gas-pressure-inlet").units}
            unit={pressure.maxDrop.unit}
            onChange={(unit) => set({ maxDrop: { ...pressure.maxDrop, unit } })}
          />
        </div>
        <Notes form={form} path={dropPath} />
      </fieldset>
      <Notes form={form} path={at} />
    </div>
  );
}
