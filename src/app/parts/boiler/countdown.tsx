import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { every } from "../../../device/clock.ts";
import { settlingOf } from "../../../judge/settle.ts";
import { epochMs } from "../../../measure/instant.ts";
import type { Session } from "../../boiler/session.ts";
import { signalWordOf } from "../../boiler/signal-word.ts";

interface CountdownProps {
  readonly session: Session;
  readonly now: () => string;
}

const RADIUS = 44;
const AROUND = 2 * Math.PI * RADIUS;

/** The settle time that runs, as a ring that empties; when it is over the session says so. Small beside another thing to do. */
export function Countdown({ session, now }: CountdownProps) {
  const { until } = session.wait.value;
  const { advice, warnings } = session.given.value.reply.judgement;
  const word = signalWordOf(warnings);
  const isLarge = advice.action === "wait" && (word === null || word === "notice");
  const ms = useSignal(epochMs(now()));

  useEffect(() => {
    if (until === null) return;
    const tick = () => {
      ms.value = epochMs(now());
      session.ready();
    };
    tick();
    return every(250, tick);
  }, [until, session]);

  if (until === null) return null;
  // Never older than the last tick, so that a new wait does not begin with what was left of the one before.
  const left = Math.max(0, Math.ceil((epochMs(until) - Math.max(ms.value, epochMs(now()))) / 1000));
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
