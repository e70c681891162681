import { shownNumber } from "../../../measure/show.ts";
import type { Change, DriftPoint } from "../../../record/office/drift.ts";
import type { FlueFigures } from "../../../record/office/row.ts";
import { FUEL_NAMES, firingName } from "../../../record/wording.ts";
import { driftWords, historyDay, screwStand } from "../../office/history-words.ts";
import type { Office } from "../../office/office.ts";
import { counted } from "../../office/words.ts";
import { hashOf } from "../../place.ts";
import { Mark } from "../mark.tsx";
import { HistoryFigure } from "./history-figure.tsx";

/** One appliance over its visits: how it was found and left, how far it drifted between, where its screws stand. */
export function Appliance({ office, id }: { readonly office: Office; readonly id: string }) {
  const history = office.history(id);
  if (!history) return <p>No visit of the office has this appliance number.</p>;
  const gases = [...new Set(history.points.map(({ fuel }) => FUEL_NAMES[fuel].toLowerCase()))];
  const newest = history.points.toReversed();
  return (
    <>
      <p>
        {counted(history.points.length, "visit")}, {gases.join(" and ")}. Drift is what it was found at less
        what it was left at in the visit before, with the same gas.
      </p>
      <HistoryFigure history={history} />
      <section aria-labelledby="history-heading">
        <h2 id="history-heading">Visit by visit, the last first</h2>
        <table class="phases history-table">
          <thead>
            <tr>
              <th scope="col">Visit</th>
              <th scope="col">Firing</th>
              <th scope="col">Drift since the visit before</th>
              <th scope="col">As found</th>
              <th scope="col">As left</th>
              <th scope="col">Screw, since before the first visit</th>
            </tr>
          </thead>
          {newest.map((point) => (
            <tbody key={point.visitId}>
              <Row point={point} firing="high" />
              <Row point={point} firing="low" />
            </tbody>
          ))}
        </table>
      </section>
    </>
  );
}

interface RowProps {
  readonly point: DriftPoint;
  readonly firing: "high" | "low";
}

function Row({ point, firing }: RowProps) {
  return (
    <tr>
      {firing === "high" && (
        <th scope="rowgroup" rowSpan={2}>
          <a href={`#${hashOf({ kind: "office", part: { kind: "visit", id: point.visitId } })}`}>
            {historyDay(point)}
          </a>
        </th>
      )}
      <td data-name="Firing">{firingName(firing)}</td>
      <td data-name="Drift">
        <Drift change={point.drift[firing]} />
      </td>
      <td data-name="As found">
        <Figures of={point.found[firing]} />
      </td>
      <td data-name="As left">
        <Figures of={point.left[firing]} />
      </td>
      <td data-name="Screw">{screwStand(point.position[firing])}</td>
    </tr>
  );
}

function Drift({ change }: { readonly change: Change }) {
  const words = driftWords(change);
  return words === "" ? <span class="faint">not known</span> : <span>{words}</span>;
}

function Figures({ of: { co2, co } }: { readonly of: FlueFigures }) {
  if (!co2 && !co) return <span class="faint">not read</span>;
  return (
    <span class="history-figures">
      {co2 && (
        <span>
          CO2 {shownNumber(co2.value)} %<OutMark verdict={co2.verdict} />
        </span>
      )}
      {co && (
        <span>
          CO {shownNumber(co.value)} ppm
          <OutMark verdict={co.verdict} />
        </span>
      )}
    </span>
  );
}

function OutMark({ verdict }: { readonly verdict: string }) {
  if (verdict !== "fail") return null;
  return (
    <>
      {" "}
      <Mark verdict="fail" />
      <span class="for-ears"> out of limits</span>
    </>
  );
}
