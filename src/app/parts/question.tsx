import type { ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";

interface QuestionProps {
  readonly label: string;
  readonly children: ComponentChildren;
}

/** Something asked before it is done, at the place where it was wanted. The focus goes there, and back at the end. */
export function Question({ label, children }: QuestionProps) {
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const before = document.activeElement;
    box.current?.querySelector("button")?.focus();
    return () => {
      if (before instanceof HTMLElement && before.isConnected) before.focus();
    };
  }, []);
  return (
    <div class="question" role="alertdialog" aria-label={label} ref={box}>
      {children}
    </div>
  );
}
