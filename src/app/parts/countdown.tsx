import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { every } from "../../device/clock.ts";
import { epochMs } from "../../measure/instant.ts";
import type { Session } from "../session.ts";

interface CountdownProps {
  readonly session: Session;
  readonly now: () => string;
  readonly say: (text: string) => void;
}

/** The wait after a touch of a screw, ticking; when it is over the visit is judged anew and the voice says so. */
export function Countdown({ session, now, say }: CountdownProps) {
  const { reply, at } = session.given.value;
  const { advice } = reply.judgement;
  const end = advice.action === "wait" && advice.seconds > 0 ? epochMs(at) + advice.seconds * 1000 : null;
  const left = useSignal(0);

  useEffect(() => {
    if (end === null) return;
    const tick = () => {
      left.value = Math.max(0, Math.ceil((end - epochMs(now())) / 1000));
      if (left.value > 0) return;
      stop();
      session.refresh();
      const { judgement } = session.given.value.reply;
      if (judgement.advice.action !== "wait") say(`Ready. ${judgement.next}`);
    };
    const stop = every(250, tick);
    left.value = Math.ceil((end - epochMs(now())) / 1000);
    return stop;
  }, [end, session]);

  if (end === null) return null;
  return (
    <p class="countdown" role="timer" aria-label="Wait">
      <span class="countdown-seconds">{left.value}</span> s to wait
    </p>
  );
}
