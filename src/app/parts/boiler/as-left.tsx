import { phaseLines } from "../../../record/phases.ts";
import { VERDICT_WORDS } from "../../../record/wording.ts";
import type { VisitState } from "../../../visit/state.ts";
import { Mark } from "../mark.tsx";

interface AsLeftProps {
  readonly state: VisitState;
  /** ISO 8601. */
  readonly now: string;
}

/** What stands at the end of a visit, each with its verdict. */
export function AsLeft({ state, now }: AsLeftProps) {
  const lines = phaseLines(state, now).filter(({ left }) => left !== null);
  if (lines.length === 0) return null;
  return (
    <dl class="as-left" aria-label="As left">
      {lines.map(({ key, name, left }) => (
        <div key={key} class={left?.verdict ? `verdict verdict-${left.verdict}` : "verdict"}>
          <dt>{name}</dt>
          <dd>
            <b>{left?.value}</b> {left?.note && <span class="verdict-limit">{left.note}</span>}{" "}
            {left?.verdict && (
              <span class="verdict-word">
                <Mark verdict={left.verdict} /> {VERDICT_WORDS[left.verdict]}
              </span>
            )}
          </dd>
        </div>
      ))}
    </dl>
  );
}
