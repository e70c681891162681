import { byFiguresOf, namedByFigures } from "../../../answer/by-figures.ts";
import type { Session } from "../../boiler/session.ts";
import { shownFigures } from "../../key-words/figures.ts";
import type { Workplace } from "../../workplace.ts";

interface ByFiguresProps {
  readonly workplace: Workplace;
  readonly session: Session;
}

/** A value that is given figure by figure, large; else, beside the question for a number, the button for it. */
export function ByFiguresPart({ workplace, session }: ByFiguresProps) {
  const spelling = workplace.spelling.value;
  if (spelling.kind === "off") {
    const isHeard = workplace.keyWords.value.kind === "listening";
    if (!isHeard || byFiguresOf(session.state.value) === null) return null;
    return (
      <button type="button" class="by-figures-begin" onClick={() => void workplace.type("figure by figure")}>
        Figure by figure
      </button>
    );
  }
  const isRead = spelling.kind === "reading-back";
  return (
    <section class="by-figures" aria-label="Figure by figure">
      <p class="by-figures-name">{namedByFigures(spelling.asked)}</p>
      <p class="by-figures-value">
        {shownFigures(spelling.figures)}
        {isRead ? "?" : <span class="by-figures-next">_</span>}
      </p>
      <p class="by-figures-hint">
        {isRead
          ? "“yes” logs it, “no” starts over, “stop” leaves it"
          : "say one figure, “point” or “minus”; “no” starts over, “stop” leaves it"}
      </p>
      <div class="row-buttons">
        {isRead && spelling.heard && (
          <button type="button" class="main-button" onClick={() => workplace.tapFigures("yes")}>
            Yes
          </button>
        )}
        <button type="button" onClick={() => workplace.tapFigures("no")}>
          No, start over
        </button>
        <button type="button" onClick={() => workplace.tapFigures("stop")}>
          Leave it
        </button>
      </div>
    </section>
  );
}
