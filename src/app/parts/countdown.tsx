import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { every } from "../../device/clock.ts";
import { epochMs } from "../../measure/instant.ts";
import type { Session } from "../session.ts";

interface CountdownProps {
  readonly session: Session;
  readonly now: () => string;
}

/** The settle time that runs, ticking; when it is over the session says so. Small beside a warning or another thing to do. */
export function Countdown({ session, now }: CountdownProps) {
  const { until } = session.wait.value;
  const { advice, warnings } = session.given.value.reply.judgement;
  const isLarge = advice.action === "wait" && warnings.length === 0;
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
  const left = Math.ceil((epochMs(until) - Math.max(ms.value, epochMs(now()))) / 1000);
  return (
    <p class={isLarge ? "countdown" : "countdown countdown-small"} role="timer" aria-label="Wait">
      <span class="countdown-seconds">{Math.max(0, left)}</span> s to wait
    </p>
  );
}
