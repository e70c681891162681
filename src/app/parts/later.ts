import { useEffect, useState } from "preact/hooks";
import { after } from "../../device/clock.ts";

/** A value, or what it was until it has stayed the same for `ms`: what is costly to draw must not hold up an answer. 0: at once. */
export function useLater<T>(value: T, ms: number): T {
  const [before, show] = useState(value);
  useEffect(() => {
    if (ms === 0) return;
    return after(ms, () => show(value));
  }, [value, ms]);
  return ms === 0 ? value : before;
}
