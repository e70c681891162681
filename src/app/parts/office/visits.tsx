import { useSignal } from "@preact/signals";
import type { Office } from "../../office/office.ts";
import { counted } from "../../office/words.ts";
import { Question } from "../question.tsx";
import { Exports } from "./exports.tsx";
import { Filters } from "./filters.tsx";
import { VisitsTable } from "./visits-table.tsx";

/** All visits of the office: searched, narrowed, sorted, handed over. */
export function Visits({ office }: { readonly office: Office }) {
  const all = office.visits.value;
  const shown = office.shown.value;
  if (all.length === 0)
    return (
      <section aria-labelledby="visits-heading">
        <h2 id="visits-heading" tabIndex={-1}>
          Visits
        </h2>
        <p>None is in the office yet.</p>
      </section>
    );
  return (
    <>
      <section class="office-visits" aria-labelledby="visits-heading">
        <h2 id="visits-heading" tabIndex={-1}>
          Visits
        </h2>
        <Filters office={office} />
        <p role="status" class="shown-count">
          {shown.length === all.length
            ? `${counted(all.length, "visit")}.`
            : `${shown.length.toLocaleString("en-GB")} of ${counted(all.length, "visit")}.`}
        </p>
        <VisitsTable office={office} />
      </section>
      <Exports office={office} />
      <DropAll office={office} />
    </>
  );
}

function DropAll({ office }: { readonly office: Office }) {
  const asking = useSignal(false);
  const count = office.visits.value.length;
  return (
    <section class="strip" aria-labelledby="drop-all-heading">
      <h2 id="drop-all-heading">Empty the office</h2>
      <p>Deletes everything that was taken in here. The visits of this device's own notebook stay.</p>
      <button
        type="button"
        disabled={office.taking.value?.stand === "running"}
        onClick={() => {
          asking.value = true;
        }}
      >
        Delete all visits of the office
      </button>
      {asking.value && (
        <Question
          label="Delete all visits of the office"
          onNo={() => {
            asking.value = false;
          }}
          yes="Yes, delete all"
          onYes={() => {
            void office.dropAll().then(() => document.getElementById("visits-heading")?.focus());
          }}
        >
          Delete {counted(count, "visit")} with all their revisions, and what was marked as done, for good?
          Nobody can bring them back. Files that they came from stay.
        </Question>
      )}
    </section>
  );
}
