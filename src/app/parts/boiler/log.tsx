import { useMemo } from "preact/hooks";
import type { Entry } from "../../../visit/entry.ts";
import type { Visit } from "../../../visit/visit.ts";
import { type LogLine, logLiner } from "../../boiler/log-lines.ts";
import type { Workplace } from "../../workplace.ts";
import { Blocks } from "../blocks.tsx";
import { ClipButton } from "./clip-button.tsx";

/** How high a line is before it was drawn, px. */
const ROW_HEIGHT = 75;

interface LogProps {
  readonly workplace: Workplace;
  readonly visit: Visit;
}

/** Every entry of the visit, the newest first; struck ones stay, struck through. */
export function Log({ workplace, visit }: LogProps) {
  const { kept, trouble } = workplace.clips;
  const lineOf = useMemo(() => logLiner(visit, kept.value), [visit, kept.value]);
  return (
    <section class="log" aria-label="Log">
      <h2>Log</h2>
      {visit.entries.length === 0 && <p>Nothing logged yet.</p>}
      {trouble.value !== null && <p role="status">{trouble.value}</p>}
      <Blocks
        rows={visit.entries}
        newestFirst
        rowHeight={ROW_HEIGHT}
        draw={(entry: Entry) => <Line key={entry.id} workplace={workplace} line={lineOf(entry)} />}
      />
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
        <span class="said">{line.said === "" ? "by hand" : `“${line.said}”`}</span>
        {line.assumed.length > 0 && <span class="assumed">assumed: {line.assumed.join(", ")}</span>}
        {line.clip !== null && <ClipButton workplace={workplace} clip={line.clip} said={line.said} />}
      </div>
    </li>
  );
}
