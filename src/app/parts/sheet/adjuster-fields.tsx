import type { Firing } from "../../../measure/firing.ts";
import { firingName, screwName } from "../../../record/wording.ts";
import type { AdjusterDraft } from "../../sheets/draft.ts";
import type { SheetForm } from "../../sheets/form.ts";
import { described, fieldId, Notes } from "./notes.tsx";
import { TextField } from "./text-field.tsx";

const WAYS = [
  ["clockwise", "clockwise"],
  ["counterclockwise", "counterclockwise"],
] as const;

/** One screw of the gas valve, and how long its firing takes to settle. */
export function AdjusterFields({ form, firing }: { readonly form: SheetForm; readonly firing: Firing }) {
  const { adjusters, settleSeconds } = form.draft.value;
  const screw = adjusters[firing];
  const at = `adjusters.${firing}`;
  const heading = `screw-${firing}`;
  const change = (part: Partial<AdjusterDraft>) =>
    form.change({ adjusters: { ...adjusters, [firing]: { ...screw, ...part } } });
  return (
    <section class="sheet-part" aria-labelledby={heading}>
      <h2 id={heading}>{screwName(firing)}</h2>
      <fieldset
        class="field"
        id={fieldId(`${at}.co2Rises`)}
        tabIndex={-1}
        {...described(form, `${at}.co2Rises`)}
      >
        <legend>CO2 rises when it is turned</legend>
        <div class="options">
          {WAYS.map(([way, name]) => (
            <label key={way} class="option">
              <input
                type="radio"
                name={`${at}.co2Rises`}
                checked={screw.co2Rises === way}
                onChange={() => change({ co2Rises: way })}
              />
              <span>{name}</span>
            </label>
          ))}
        </div>
        <Notes form={form} path={`${at}.co2Rises`} />
      </fieldset>
      <div class="side-by-side">
        <div>
          <TextField
            form={form}
            path={`${at}.percentPerTurn`}
            label="One full turn moves CO2 by"
            isNumber
            unit="% CO2"
            disabled={screw.percentUnknown}
            value={screw.percentUnknown ? "" : screw.percentPerTurn}
            onInput={(percentPerTurn) => change({ percentPerTurn })}
          />
          <label class="option">
            <input
              type="checkbox"
              checked={screw.percentUnknown}
              onChange={() => change({ percentUnknown: !screw.percentUnknown })}
            />
            <span>the paper gives no figure</span>
          </label>
        </div>
        <TextField
          form={form}
          path={`${at}.largestStepTurns`}
          label="Largest step at a time"
          placeholder="0.25 or 1/4"
          isNumber
          unit="turns"
          value={screw.largestStepTurns}
          onInput={(largestStepTurns) => change({ largestStepTurns })}
        />
        <TextField
          form={form}
          path={`settleSeconds.${firing}`}
          label={`${firingName(firing)} settles in`}
          isNumber
          unit="seconds"
          value={settleSeconds[firing]}
          onInput={(text) => form.change({ settleSeconds: { ...settleSeconds, [firing]: text } })}
        />
      </div>
      <label class="option">
        <input
          type="checkbox"
          checked={screw.underCap}
          onChange={() => change({ underCap: !screw.underCap })}
        />
        <span>it sits under a cap</span>
      </label>
    </section>
  );
}
