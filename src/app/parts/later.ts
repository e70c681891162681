import { useEffect, useReducer, useRef } from "preact/hooks";
import { after } from "../../device/clock.ts";

/** A value, or what it was until it has stayed the same for `ms`: what is costly to draw must not hold up an answer. 0: at once. */
export function useLater<T>(value: T, ms: number): T {
  const shown = useRef(value);
  const [, draw] = useReducer((times: number) => times + 1, 0);
  if (ms === 0) shown.current = value;
  useEffect(() => {
    if (shown.current === value) return;
    return after(ms, () => {
      shown.current = value;
      draw(undefined);
    });
  }, [value, ms]);
  return shown.current;
}
