import { useSignal } from "@preact/signals";
import { useMemo } from "preact/hooks";
import { applianceKey, type History } from "../../../record/office/drift.ts";
import { historyDay } from "../../office/history-words.ts";
import type { Office } from "../../office/office.ts";
import { folded, type ListedVisit } from "../../office/search.ts";
import { counted } from "../../office/words.ts";
import { hashOf } from "../../place.ts";
import { Blocks } from "../blocks.tsx";
import { Outcome } from "./outcome.tsx";

/** How high an appliance is in the list before it was drawn, px. */
const ROW_HEIGHT = 110;

/** All appliances that have a number, the one that was visited last first. */
export function Appliances({ office }: { readonly office: Office }) {
  const words = useSignal("");
  const histories = office.histories.value;
  const visits = useMemo(
    () => new Map(office.visits.value.map((visit) => [visit.id, visit])),
    [office.visits.value],
  );
  const unnumbered = office.unnumbered.value.length;
  const wanted = folded(words.value)
    .split(/\s+/)
    .filter((word) => word !== "");
  const shown = histories.filter(({ points }) =>
    wanted.every((word) => points.some(({ visitId }) => visits.get(visitId)?.searched.includes(word))),
  );
  return (
    <section class="appliances" aria-labelledby="appliances-heading">
      <h2 id="appliances-heading" class="for-ears">
        Appliances
      </h2>
      {unnumbered > 0 && (
        <p>
          {unnumbered === 1
            ? "One visit has no appliance number and is in no history."
            : `${counted(unnumbered, "visit")} have no appliance number and are in no history.`}
        </p>
      )}
      {histories.length === 0 ? (
        <p>No visit with an appliance number is in the office yet.</p>
      ) : (
        <>
          <search>
            <label class="field">
              <span>Search</span>
              <input
                type="text"
                name="appliance-search"
                autocomplete="off"
                value={words.value}
                onInput={(event) => {
                  words.value = event.currentTarget.value;
                }}
              />
            </label>
          </search>
          <p role="status" class="shown-count">
            {shown.length === histories.length
              ? `${counted(shown.length, "appliance")}.`
              : `${shown.length.toLocaleString("en-GB")} of ${counted(histories.length, "appliance")}.`}
          </p>
          <Blocks
            rows={shown}
            rowHeight={ROW_HEIGHT}
            draw={(history) => <Row key={applianceKey(history)} history={history} visits={visits} />}
          />
        </>
      )}
    </section>
  );
}

interface RowProps {
  readonly history: History;
  readonly visits: ReadonlyMap<string, ListedVisit>;
}

function Row({ history, visits }: RowProps) {
  const last = history.points.at(-1);
  const visit = last && visits.get(last.visitId);
  const key = applianceKey(history);
  if (!visit || key === null) return null;
  return (
    <li class="office-row">
      <a href={`#${hashOf({ kind: "office", part: { kind: "appliance", id: key } })}`}>{history.appliance}</a>
      <span>
        {visit.row.place || visit.title}; {counted(history.points.length, "visit")}, the last{" "}
        {historyDay(last)}
      </span>
      <Outcome of={visit.row.outcome} />
    </li>
  );
}
