import { dayTime, FUEL_NAMES } from "../wording.ts";
import { titleOf, type Workplace } from "../workplace.ts";

/** The visits in the notebook, newest first, to go on with or to hand over. */
export function EarlierVisits({ workplace }: { readonly workplace: Workplace }) {
  const visits = workplace.visits.value;
  return (
    <section class="strip" aria-label="Earlier visits">
      <h2>Earlier visits</h2>
      {visits.length === 0 && <p>None in this notebook yet.</p>}
      <ul class="rows">
        {visits.map((head) => (
          <li key={head.id}>
            <div>
              <strong>{titleOf(head)}</strong>
              <span>
                {dayTime(head.startedAt, head.zone)}, {FUEL_NAMES[head.fuel].toLowerCase()}
              </span>
            </div>
            <div class="row-buttons">
              <button type="button" onClick={() => void workplace.goOn(head.id)}>
                Go on
              </button>
              <button
                type="button"
                onClick={() => void workplace.goTo({ kind: "afterwards", visitId: head.id })}
              >
                Look it over
              </button>
              <button type="button" onClick={() => void workplace.exportVisit(head.id)}>
                Export
              </button>
            </div>
          </li>
        ))}
      </ul>
    </section>
  );
}
