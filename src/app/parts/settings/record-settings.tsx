import { useSignal } from "@preact/signals";
import { MOST, tidied, tidiedInstrument } from "../../record/given-details.ts";
import type { Workplace } from "../../workplace.ts";
import { InstrumentFields, LineField } from "../record/detail-fields.tsx";

/** Who measures, and with what: what the record of each new visit starts with. */
export function RecordSettings({ workplace }: { readonly workplace: Workplace }) {
  const { technician } = workplace.settings.value;
  // As typed: what is stored comes a moment later, when the next field may be changed already.
  const instrument = useSignal(workplace.settings.value.instrument);
  return (
    <section class="settings-part" aria-labelledby="record-settings">
      <h2 id="record-settings">For the record of new visits</h2>
      <p>What is given here stands in the record of every visit that is started from now on.</p>
      <div class="detail-fields">
        <LineField
          name="technician"
          label="Technician"
          most={MOST.technician}
          autocomplete="name"
          value={technician}
          onChange={(name) => {
            const { technician: kept } = tidied({
              appliance: "",
              place: "",
              technician: name,
              instrument: null,
            });
            void workplace.changeSettings({ technician: kept });
          }}
        />
        <InstrumentFields
          instrument={instrument.value}
          day={workplace.today}
          onInput={(changed) => {
            instrument.value = changed;
          }}
          onChange={(changed) => void workplace.changeSettings({ instrument: tidiedInstrument(changed) })}
        />
      </div>
    </section>
  );
}
