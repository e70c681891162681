import type { Visit } from "../../visit/visit.ts";
import { type LogLine, logLines } from "../log-lines.ts";

/** Every entry of the visit, the newest first; struck ones stay, struck through. */
export function Log({ visit }: { readonly visit: Visit }) {
  const lines = logLines(visit).reverse();
  return (
    <section class="log" aria-label="Log">
      <h2>Log</h2>
      {lines.length === 0 && <p>Nothing logged yet.</p>}
      <ol reversed>
        {lines.map((line) => (
          <Line key={line.id} line={line} />
        ))}
      </ol>
    </section>
  );
}

function Line({ line }: { readonly line: LogLine }) {
  const understood = <strong>{line.understood}</strong>;
  return (
    <li class={line.struck ? "line struck" : "line"}>
      <time>{line.time}</time>
      <div>
        {line.struck ? <s>{understood}</s> : understood}
        {line.struck && <span class="tag">struck</span>}
        <span class="said">“{line.said}”</span>
        {line.assumed.length > 0 && <span class="assumed">assumed: {line.assumed.join(", ")}</span>}
      </div>
    </li>
  );
}
