import { useEffect, useReducer } from "preact/hooks";
import { every } from "../../../device/clock.ts";
import { settlingOf } from "../../../judge/settle.ts";
import { epochMs } from "../../../measure/instant.ts";
import type { Session } from "../../boiler/session.ts";
import { signalWordOf } from "../../boiler/signal-word.ts";

const RADIUS = 44;
const AROUND = 2 * Math.PI * RADIUS;

/** The settle time that runs, as a ring that empties; when it is over the session says so. Small beside another thing to do. */
export function Countdown({ session }: { readonly session: Session }) {
  const { until } = session.wait.value;
  const { advice, warnings } = session.given.value.reply.judgement;
  const word = signalWordOf(warnings);
  const isLarge = advice.action === "wait" && (word === null || word === "notice");
  const [, draw] = useReducer((ticks: number) => ticks + 1, 0);

  useEffect(() => {
    if (until === null) return;
    const tick = () => {
      session.ready();
      draw(undefined);
    };
    tick();
    return every(250, tick);
  }, [until, session]);

  if (until === null) return null;
  const left = Math.max(0, Math.ceil(session.left() / 1000));
  const settling = settlingOf(session.state.value);
  const whole = settling ? (epochMs(settling.until) - epochMs(settling.from)) / 1000 : 0;
  const share = whole > 0 ? Math.min(1, left / whole) : 0;
  return (
    <div class={isLarge ? "countdown" : "countdown countdown-small"} role="timer" aria-label="Wait">
      <svg viewBox="-50 -50 100 100" aria-hidden="true">
        <circle r={RADIUS} class="countdown-track" />
        <circle
          r={RADIUS}
          class="countdown-left"
          stroke-dasharray={`${share * AROUND} ${AROUND}`}
          transform="rotate(-90)"
        />
      </svg>
      <p>
        <span class="countdown-seconds">{left}</span> <span class="countdown-unit">s to wait</span>
      </p>
    </div>
  );
}
