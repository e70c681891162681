import type { Visit } from "../../visit/visit.ts";
import { type LogLine, logLines } from "../log-lines.ts";
import type { Workplace } from "../workplace.ts";
import { ClipButton } from "./clip-button.tsx";

interface LogProps {
  readonly workplace: Workplace;
  readonly visit: Visit;
}

/** Every entry of the visit, the newest first; struck ones stay, struck through. */
export function Log({ workplace, visit }: LogProps) {
  const { kept, trouble } = workplace.clips;
  const lines = logLines(visit, kept.value).reverse();
  return (
    <section class="log" aria-label="Log">
      <h2>Log</h2>
      {lines.length === 0 && <p>Nothing logged yet.</p>}
      {trouble.value !== null && <p role="status">{trouble.value}</p>}
      <ol reversed>
        {lines.map((line) => (
          <Line key={line.id} workplace={workplace} line={line} />
        ))}
      </ol>
    </section>
  );
}

interface LineProps {
  readonly workplace: Workplace;
  readonly line: LogLine;
}

function Line({ workplace, line }: LineProps) {
  const understood = <strong>{line.understood}</strong>;
  return (
    <li class={line.struck ? "line struck" : "line"}>
      <time>{line.time}</time>
      <div>
        {line.struck ? <s>{understood}</s> : understood}
        {line.struck && <span class="tag">struck</span>}
        <span class="said">“{line.said}”</span>
        {line.assumed.length > 0 && <span class="assumed">assumed: {line.assumed.join(", ")}</span>}
        {line.clip !== null && <ClipButton workplace={workplace} clip={line.clip} said={line.said} />}
      </div>
    </li>
  );
}
