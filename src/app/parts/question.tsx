import type { ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";

interface QuestionProps {
  readonly label: string;
  /** What will be lost. */
  readonly children: ComponentChildren;
  readonly onNo: () => void;
  /** "Yes, delete it". */
  readonly yes: string;
  readonly onYes: () => void;
  /** A third way. */
  readonly onExport?: () => void;
}

/** Something asked before it is done, at the place where it was wanted. The focus goes there, and back at the end. */
export function Question({ label, children, onNo, yes, onYes, onExport }: QuestionProps) {
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
      <p>{children}</p>
      <div class="row-buttons">
        <button type="button" class="main-button" onClick={onNo}>
          No, keep it
        </button>
        {onExport && (
          <button type="button" onClick={onExport}>
            Export it first
          </button>
        )}
        <button type="button" onClick={onYes}>
          {yes}
        </button>
      </div>
    </div>
  );
}
