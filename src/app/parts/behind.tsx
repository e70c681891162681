import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import { after } from "../../device/clock.ts";

interface BehindProps {
  readonly draw: () => ComponentChildren;
}

/** A part of a screen that is drawn once what is before it has been: opening the screen must not wait for it. */
export function Behind({ draw }: BehindProps) {
  const [isOpen, open] = useState(false);
  useEffect(() => after(0, () => open(true)), []);
  return isOpen && draw();
}
