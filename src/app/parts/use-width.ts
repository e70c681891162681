import { type ReadonlySignal, useSignal } from "@preact/signals";
import type { RefObject } from "preact";
import { useLayoutEffect, useRef } from "preact/hooks";
import { onWidth } from "../../device/width.ts";

/** Before it is measured: a phone's, CSS px. */
const USUAL = 360;

/**
 * The width of the element that takes the ref, CSS px.
 * @param isThere whether that element is drawn: looked at anew when this changes
 */
export function useWidth(isThere = true): {
  readonly ref: RefObject<HTMLElement | null>;
  readonly width: ReadonlySignal<number>;
} {
  const ref = useRef<HTMLElement>(null);
  const width = useSignal(USUAL);
  useLayoutEffect(() => {
    const element = ref.current;
    if (!element) return;
    return onWidth(element, (pixels) => {
      width.value = pixels;
    });
  }, [isThere]);
  return { ref, width };
}
