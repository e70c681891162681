import { NOT_FOUND, type PhaseLine, type PhaseValue } from "../../../record/phases.ts";
import { VERDICT_WORDS } from "../../../record/wording.ts";
import { Mark } from "../mark.tsx";

/** As found and as left, side by side, with their limits and verdicts. */
export function PhaseTable({ lines }: { readonly lines: readonly PhaseLine[] }) {
  if (lines.length === 0) return <p>Nothing was read.</p>;
  return (
    <table class="phases">
      <thead>
        <tr>
          <th scope="col">Reading</th>
          <th scope="col">As found</th>
          <th scope="col">As left</th>
          <th scope="col">Limit</th>
        </tr>
      </thead>
      <tbody>
        {lines.map(({ key, name, limit, found, left }) => (
          <tr key={key}>
            <th scope="row">{name}</th>
            <td data-name="As found">
              <Value of={found} otherwise={NOT_FOUND} />
            </td>
            <td data-name="As left">
              <Value of={left} otherwise="not read" />
            </td>
            <td data-name="Limit">{limit || "none known"}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Value({ of, otherwise }: { readonly of: PhaseValue | null; readonly otherwise: string }) {
  if (!of) return <span class="faint">{otherwise}</span>;
  return (
    <>
      <b>{of.value}</b>
      {of.note && <span class="phase-note"> {of.note}</span>}
      {of.verdict && (
        <span class="phase-verdict">
          <Mark verdict={of.verdict} /> {VERDICT_WORDS[of.verdict]}
        </span>
      )}
    </>
  );
}
