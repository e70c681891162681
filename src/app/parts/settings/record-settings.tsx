import { useSignal } from "@preact/signals";
import { tidiedInstrument, tidiedWho, type Who } from "../../record/given-details.ts";
import type { Workplace } from "../../workplace.ts";
import { InstrumentFields, WhoFields } from "../record/detail-fields.tsx";

/** Who measures, and with what: what the record of each new visit starts with. */
export function RecordSettings({ workplace }: { readonly workplace: Workplace }) {
  // As typed: what is stored comes a moment later, when the next field may be changed already.
  const who = useSignal<Who>(workplace.settings.value);
  const instrument = useSignal(workplace.settings.value.instrument);
  return (
    <section class="settings-part" aria-labelledby="record-settings">
      <h2 id="record-settings">For the record of new visits</h2>
      <p>What is given here stands in the record of every visit that is started from now on.</p>
      <div class="detail-fields">
        <WhoFields
          who={who.value}
          onInput={(changed) => {
            who.value = { ...who.value, ...changed };
          }}
          onChange={(changed) => void workplace.changeSettings(tidiedWho({ ...who.value, ...changed }))}
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
