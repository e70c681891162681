import { MOST, tidied, tidiedInstrument } from "../../record/given-details.ts";
import type { Workplace } from "../../workplace.ts";
import { InstrumentFields, LineField } from "../record/detail-fields.tsx";

/** Who measures, and with what: what the record of each new visit starts with. */
export function RecordSettings({ workplace }: { readonly workplace: Workplace }) {
  const { technician, instrument } = workplace.settings.value;
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
          instrument={instrument}
          onChange={(changed) => void workplace.changeSettings({ instrument: tidiedInstrument(changed) })}
        />
      </div>
    </section>
  );
}
