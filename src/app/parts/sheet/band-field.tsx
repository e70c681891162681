import { type QuantityId, quantityOf } from "../../../measure/quantity.ts";
import { shownUnit } from "../../../measure/unit.ts";
import type { BandDraft } from "../../sheets/draft.ts";
import type { SheetForm } from "../../sheets/form.ts";
import { described, fieldId, Notes } from "./notes.tsx";
import { UnitChoice } from "./unit-choice.tsx";

interface BandFieldProps {
  readonly form: SheetForm;
  /** Of the band. */
  readonly path: string;
  /** Of the ends, where they lie deeper than the band. */
  readonly endsPath?: string;
  readonly quantity: QuantityId;
  readonly label: string;
  readonly band: BandDraft;
  /** Papers give no lower end for it: shown only where there is one all the same. */
  readonly isOnlyUpper?: boolean;
  readonly onChange: (change: Partial<BandDraft>) => void;
}

/** From one value to another, in a unit; what is left empty is no limit. */
export function BandField(props: BandFieldProps) {
  const { form, path, endsPath = path, quantity, label, band, isOnlyUpper, onChange } = props;
  const { units } = quantityOf(quantity);
  const end = (side: "min" | "max", name: string) => (
    <label class="band-end">
      <span>{name}</span>
      <input
        id={fieldId(`${endsPath}.${side}`)}
        type="text"
        inputMode="decimal"
        autocomplete="off"
        value={band[side]}
        onInput={(event) => onChange({ [side]: event.currentTarget.value })}
        onBlur={() => form.touch(`${endsPath}.${side}`)}
        {...described(form, `${endsPath}.${side}`, path)}
      />
    </label>
  );
  return (
    <fieldset class="band" id={fieldId(path)} tabIndex={-1}>
      <legend>{label}</legend>
      <div class="band-ends">
        {(!isOnlyUpper || band.min !== "") && end("min", "from")}
        {end("max", "up to")}
        {units.length === 1 ? (
          <span class="band-unit">{shownUnit(band.unit)}</span>
        ) : (
          <UnitChoice
            name={`Unit of ${label.toLowerCase()}`}
            units={units}
            unit={band.unit}
            onChange={(unit) => onChange({ unit })}
          />
        )}
      </div>
      <Notes form={form} path={`${endsPath}.min`} />
      <Notes form={form} path={`${endsPath}.max`} />
      {endsPath !== path && <Notes form={form} path={endsPath} />}
      <Notes form={form} path={path} />
    </fieldset>
  );
}
