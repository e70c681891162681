import { useLayoutEffect, useRef } from "preact/hooks";
import { byFiguresOf, namedByFigures } from "../../answer/by-figures.ts";
import type { Session } from "../boiler/session.ts";
import { focusHeading } from "../parts/focus-heading.ts";
import type { Workplace } from "../workplace.ts";
import { shownFigures } from "./figures.ts";
import type { Spelling } from "./spelling.ts";
import type { Steering } from "./steering.ts";

interface SteeringProps {
  readonly workplace: Workplace;
  readonly session: Session;
  readonly steering: Steering;
}

/**
 * A value that is given figure by figure, large; else, beside the question for a number, the button for it. While the ear rests,
 * that the microphone is open and what wakes; and what is wrong with the key words.
 */
export function SteeringPart({ workplace, session, steering }: SteeringProps) {
  const { kind } = workplace.listening.state.value;
  const spelling = steering.spelling.value;
  const state = steering.state.value;
  if (kind === "resting") return <Resting />;
  if (state.kind === "problem" && kind === "listening")
    return (
      <p class="ear-trouble" role="alert">
        {state.message}
      </p>
    );
  if (spelling.kind !== "off") return <Given spelling={spelling} steering={steering} />;
  const isHeard = state.kind === "listening" && kind === "listening";
  if (!isHeard || byFiguresOf(session.state.value) === null) return null;
  return (
    <button type="button" class="figures-begin" onClick={() => void workplace.type("figure by figure")}>
      Figure by figure
    </button>
  );
}

function Resting() {
  return (
    <p class="rests" role="status">
      The recogniser rests: “mark” wakes it. The microphone stays open for key words; a tap below turns it all
      off.
    </p>
  );
}

interface GivenProps {
  readonly spelling: Exclude<Spelling, { kind: "off" }>;
  readonly steering: Steering;
}

function Given({ spelling, steering }: GivenProps) {
  const { asked, figures } = spelling;
  const isRead = spelling.kind === "reading-back";
  const section = useRef<HTMLElement>(null);
  // Its buttons come and go: the focus of a keyboard is not lost with them.
  useLayoutEffect(() => {
    const { current } = section;
    if (document.activeElement === document.body) current?.focus({ preventScroll: true });
  }, [isRead]);
  useLayoutEffect(() => {
    const { current } = section;
    return () => {
      if (current?.contains(document.activeElement)) focusHeading();
    };
  }, []);
  return (
    <section ref={section} class="figures" aria-label="Figure by figure" tabIndex={-1}>
      <p class="figures-name">{namedByFigures(asked)}</p>
      <p class="figures-value" aria-live="polite">
        {shownFigures(figures)}
        {isRead ? "?" : <span class="figures-next">_</span>}
      </p>
      <p class="figures-hint">
        {isRead
          ? "“yes” logs it, “no” starts over, “stop” leaves it"
          : "one figure at a time, “point”, “minus”; “no” starts over, “stop” leaves it"}
      </p>
      <div class="row-buttons">
        {isRead && spelling.heard && (
          <button type="button" class="main-button" onClick={() => steering.tap("yes")}>
            Yes
          </button>
        )}
        <button type="button" onClick={() => steering.tap("no")}>
          No, start over
        </button>
        <button type="button" onClick={() => steering.tap("stop")}>
          Leave it
        </button>
      </div>
    </section>
  );
}
