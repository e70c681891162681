import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { UnitSystem } from "../../../measure/firing.ts";
import { harmless } from "../../../measure/harmless.ts";
import { technicianWords } from "../../../record/technician-words.ts";
import { FUEL_NAMES, sourceOf } from "../../../record/wording.ts";
import { MOST } from "../../record/given-details.ts";
import { fuelsOf, fuelWords, type SheetRow, sheetRows } from "../../sheets/order.ts";
import { found, type StartChoice } from "../../start/choice.ts";
import type { StartDesk } from "../../start/desk.ts";
import { UNIT_NAMES } from "../../wording.ts";
import type { Workplace } from "../../workplace.ts";
import { Choice } from "../choice.tsx";
import { ApplianceField, LineField } from "../record/detail-fields.tsx";
import { StartSentence } from "./start-sentence.tsx";

/** So many sheets are looked through at a glance; more get a line to search. */
const AT_A_GLANCE = 8;

/** Starts a visit in three taps, sheet, gas, go; or in one sentence. */
export function NewVisit({ workplace }: { readonly workplace: Workplace }) {
  const { desk, sheets } = workplace;
  const search = useSignal("");
  const all = useSignal(false);
  const rows = sheetRows(sheets.own.value, sheets.all.value, workplace.visits.heads.value);
  useEffect(() => {
    desk.reset();
    return () => void desk.leave();
  }, []);
  const choice = desk.choice.value;
  const hits = rows.length > AT_A_GLANCE ? found(rows, search.value) : rows;
  // What is chosen is in sight, wherever it stands.
  const shown = all.value ? hits : hits.filter(({ sheet }, at) => at < AT_A_GLANCE || sheet === choice.sheet);

  return (
    <>
      <StartSentence desk={desk} />
      <form
        class="new-visit"
        onSubmit={(event) => {
          event.preventDefault();
          void desk.go();
        }}
      >
        <fieldset class="field">
          <legend>Limits sheet</legend>
          {rows.length > AT_A_GLANCE && (
            <label class="sheet-search">
              <span>Look for</span>
              <input
                type="text"
                autocomplete="off"
                placeholder="a word of its title"
                value={search.value}
                onInput={(event) => {
                  search.value = event.currentTarget.value;
                }}
              />
            </label>
          )}
          <div class="sheet-rows">
            {shown.map((row) => (
              <SheetChoice key={row.sheet.id} row={row} desk={desk} />
            ))}
            {shown.length < hits.length && (
              <button
                type="button"
                class="all-sheets"
                onClick={() => {
                  all.value = true;
                }}
              >
                All {hits.length} sheets
              </button>
            )}
            {shown.length === 0 && <p role="status">No sheet has that in its title.</p>}
            <label class="sheet-row">
              <input
                type="radio"
                name="sheet"
                value=""
                checked={choice.sheet === "none"}
                onChange={() => desk.pick("none")}
              />
              <span class="sheet-number" aria-hidden="true">
                –
              </span>
              <span class="sheet-names">
                <strong>Without a sheet</strong>
                <span>Nothing is judged: readings are only logged.</span>
              </span>
            </label>
          </div>
        </fieldset>
        <div class="beside">
          <label class="field">
            <span>Name of the visit, if you like</span>
            <input
              name="title"
              type="text"
              maxLength={200}
              autocomplete="off"
              placeholder="as on your work order"
              value={desk.title.value}
              onInput={(event) => {
                desk.title.value = event.currentTarget.value;
              }}
            />
          </label>
          <Choice
            legend="Units"
            name="units"
            options={UnitSystem.options.map((one) => [one, UNIT_NAMES[one]] as const)}
            value={workplace.settings.value.units}
            onChange={(units) => void workplace.changeSettings({ units })}
          />
        </div>
        <ForTheRecord workplace={workplace} />
        <GoBar desk={desk} />
      </form>
    </>
  );
}

/** What a record needs beside what is measured; nobody has to open it. */
function ForTheRecord({ workplace }: { readonly workplace: Workplace }) {
  const { desk, settings } = workplace;
  const who = technicianWords(settings.value);
  return (
    <details class="new-visit-record">
      <summary>For the record: appliance number and place</summary>
      <div class="detail-fields">
        <ApplianceField
          workplace={workplace}
          value={desk.appliance.value}
          onInput={(text) => {
            desk.appliance.value = text;
          }}
        />
        <LineField
          name="site"
          label="Place"
          most={MOST.place}
          value={desk.site.value}
          onInput={(text) => {
            desk.site.value = text;
          }}
        />
      </div>
      <p>
        {who === ""
          ? "Who does the work is typed in once, in the settings."
          : `By ${who}, as in the settings.`}
      </p>
    </details>
  );
}

function SheetChoice({ row, desk }: { readonly row: SheetRow; readonly desk: StartDesk }) {
  const { sheet, number, isLast, isDemo } = row;
  const chosen = desk.choice.value.sheet === sheet;
  return (
    <label class="sheet-row">
      <input type="radio" name="sheet" value={sheet.id} checked={chosen} onChange={() => desk.pick(sheet)} />
      <span class="sheet-number">
        <span class="for-ears">sheet </span>
        {number}
      </span>
      <span class="sheet-names">
        <strong>{harmless(sheet.title)}</strong>
        <span>
          {isLast && "Used last. "}
          {fuelWords(sheet)}.{isDemo && <b> Invented demo: not for real appliances.</b>}
        </span>
        {chosen && !isDemo && <span>{sourceOf(sheet)} Check it against the maker's instructions.</span>}
      </span>
    </label>
  );
}

/** The gas and the start, always within reach of a thumb. */
function GoBar({ desk }: { readonly desk: StartDesk }) {
  const choice = desk.choice.value;
  const missing = desk.missing.value;
  return (
    <div class="go-bar">
      <p class="go-sheet">{sheetWords(choice)}</p>
      <div>
        <Gas desk={desk} />
        <p id="go-says" role="status">
          {missing === "sheet" && "First choose a sheet."}
          {missing === "fuel" && "Now choose the gas."}
        </p>
      </div>
      <button
        type="submit"
        class="main-button go"
        aria-disabled={missing !== null}
        aria-describedby="go-says"
      >
        Go
      </button>
    </div>
  );
}

function Gas({ desk }: { readonly desk: StartDesk }) {
  const { sheet, fuel } = desk.choice.value;
  if (sheet === null) return null;
  const fuels = fuelsOf(sheet === "none" ? null : sheet);
  const [only, ...more] = fuels;
  if (only !== undefined && more.length === 0) {
    return <p class="only-gas">{FUEL_NAMES[only]}, the only gas of this sheet</p>;
  }
  return (
    <fieldset class="gases">
      <legend class="for-ears">Gas</legend>
      {fuels.map((one) => (
        <label key={one} class="gas">
          <input
            type="radio"
            name="fuel"
            value={one}
            checked={fuel === one}
            onChange={() => desk.pickFuel(one)}
          />
          <span>{FUEL_NAMES[one]}</span>
        </label>
      ))}
    </fieldset>
  );
}

function sheetWords({ sheet }: StartChoice): string {
  if (sheet === null) return "No sheet chosen";
  return sheet === "none" ? "Without a sheet" : harmless(sheet.title);
}
