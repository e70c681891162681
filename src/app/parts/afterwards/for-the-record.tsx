import { useSignal } from "@preact/signals";
import type { Details } from "../../../visit/details.ts";
import { MOST, tidied } from "../../record/given-details.ts";
import type { Workplace } from "../../workplace.ts";
import { Alert } from "../alert.tsx";
import { ApplianceField, InstrumentFields, LineField, WhoFields } from "../record/detail-fields.tsx";

interface ForTheRecordProps {
  readonly workplace: Workplace;
  readonly details: Details;
  /** Day of the visit, YYYY-MM-DD. */
  readonly day: string;
}

/** Where, with what and by whom: what the record needs beside what was said. */
export function ForTheRecord({ workplace, details, day }: ForTheRecordProps) {
  const now = useSignal(details);
  const problem = useSignal<string | null>(null);
  const change = (part: Partial<Details>) => {
    now.value = { ...now.value, ...part };
  };
  const given = tidied(now.value);
  const isSame = JSON.stringify(given) === JSON.stringify(details);
  const keep = async (event: SubmitEvent) => {
    event.preventDefault();
    if (isSame) return;
    const refusal = await workplace.afterwards.amend({ kind: "details", details: given });
    problem.value = refusal?.problem ?? null;
  };
  return (
    <section class="review" aria-label="For the record">
      <h2>For the record</h2>
      <form class="record-form" onSubmit={(event) => void keep(event)}>
        <div class="detail-fields">
          <ApplianceField
            workplace={workplace}
            value={now.value.appliance}
            onInput={(appliance) => change({ appliance })}
          />
          <LineField
            name="place"
            label="Place"
            most={MOST.place}
            value={now.value.place}
            onInput={(place) => change({ place })}
          />
          <WhoFields who={now.value} onInput={change} />
          <InstrumentFields
            instrument={now.value.instrument}
            day={day}
            onInput={(instrument) => change({ instrument })}
          />
        </div>
        <div class="row-buttons">
          <button type="submit" aria-disabled={isSame} aria-describedby="details-kept">
            Keep these details
          </button>
          <p id="details-kept" role="status">
            {isSame ? "As kept." : "Not kept yet."}
          </p>
        </div>
        <Alert>{problem.value}</Alert>
      </form>
    </section>
  );
}
