import { useSignal } from "@preact/signals";
import { Fuel, UnitSystem } from "../../measure/firing.ts";
import type { Sheet } from "../../visit/sheet.ts";
import { FUEL_NAMES, UNIT_NAMES } from "../wording.ts";
import type { Workplace } from "../workplace.ts";
import { Choice } from "./choice.tsx";

const NO_SHEET = "";

/** The form that starts a visit: limits sheet, gas, units, and a name for the place. */
export function NewVisit({ workplace }: { readonly workplace: Workplace }) {
  const sheets = workplace.sheets.value;
  const sheetId = useSignal(sheets[0]?.id ?? NO_SHEET);
  const chosenFuel = useSignal<Fuel>("natural-gas");
  const units = useSignal<UnitSystem>(workplace.settings.value.units);
  const title = useSignal("");
  const sheet = sheets.find((candidate) => candidate.id === sheetId.value) ?? null;
  const fuels = fuelsOf(sheet);
  // A sheet for another gas only: the choice falls to a gas that it has.
  const fuel = fuels.includes(chosenFuel.value) ? chosenFuel.value : (fuels[0] ?? "natural-gas");

  const start = (event: SubmitEvent) => {
    event.preventDefault();
    void workplace.startVisit({ title: title.value.trim(), sheet, fuel, units: units.value });
  };

  return (
    <form class="fields" onSubmit={start}>
      <label class="field">
        <span>Limits sheet</span>
        <select
          name="sheet"
          value={sheetId.value}
          onChange={(event) => {
            sheetId.value = event.currentTarget.value;
          }}
        >
          {sheets.map((one) => (
            <option key={one.id} value={one.id}>
              {one.title}
            </option>
          ))}
          <option value={NO_SHEET}>Without a sheet</option>
        </select>
      </label>
      <p class="source">
        {sheet ? sourceOf(sheet) : "Without a sheet nothing will be judged: readings are only logged."}
      </p>
      <Choice
        legend="Gas"
        name="fuel"
        options={fuels.map((one) => [one, FUEL_NAMES[one]] as const)}
        value={fuel}
        onChange={(value) => {
          chosenFuel.value = value;
        }}
      />
      <Choice
        legend="Units"
        name="units"
        options={UnitSystem.options.map((one) => [one, UNIT_NAMES[one]] as const)}
        value={units.value}
        onChange={(value) => {
          units.value = value;
        }}
      />
      <label class="field">
        <span>Place or appliance</span>
        <input
          name="title"
          type="text"
          maxLength={200}
          autocomplete="off"
          placeholder="as on your work order"
          value={title.value}
          onInput={(event) => {
            title.value = event.currentTarget.value;
          }}
        />
      </label>
      <button type="submit" class="main-button">
        Start a visit
      </button>
    </form>
  );
}

function fuelsOf(sheet: Sheet | null): readonly Fuel[] {
  return sheet ? Fuel.options.filter((fuel) => sheet.fuels[fuel] !== undefined) : Fuel.options;
}

function sourceOf({ source }: Sheet): string {
  const edition = source.edition && `, edition ${source.edition}`;
  const page = source.page && `, page ${source.page}`;
  return `From: ${source.document}${edition}${page}. Entered by ${source.enteredBy} on ${source.enteredOn}. Check it against the maker's instructions.`;
}
