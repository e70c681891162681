import { signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { VisitHead } from "../../../visit/visit.ts";
import { once } from "../../once.ts";
import type { Workplace } from "../../workplace.ts";
import type { GivenVisit } from "./export-choice.tsx";

interface ExportPartProps {
  readonly workplace: Workplace;
  readonly head: VisitHead;
  readonly given?: GivenVisit;
}

type Choice = typeof import("./export-choice.tsx").ExportChoice;

const choice = signal<Choice | null>(null);
const fault = signal(false);
const load = once(async () => {
  choice.value = (await import("./export-choice.tsx")).ExportChoice;
});

/** What a visit can be handed over as, where that was asked for; loaded with the first that is opened. */
export function ExportPart({ workplace, head, given }: ExportPartProps) {
  const isOpen = workplace.exporting.value === head.id;
  useEffect(() => {
    if (!isOpen) return;
    fault.value = false;
    load().catch(() => {
      fault.value = true;
    });
  }, [isOpen]);
  if (!isOpen) return null;
  const Choice = choice.value;
  if (Choice) return <Choice workplace={workplace} head={head} {...(given && { given })} />;
  return <p role="status">{fault.value ? "What exports a visit could not be loaded. Try again." : "…"}</p>;
}

interface ExportButtonProps extends Omit<ExportPartProps, "given"> {
  readonly children: string;
  /** Where the words alone do not say which visit. */
  readonly label?: string;
}

/** Opens and closes it. */
export function ExportButton({ workplace, head, label, children }: ExportButtonProps) {
  const isOpen = workplace.exporting.value === head.id;
  return (
    <button
      type="button"
      {...(label === undefined ? {} : { "aria-label": label })}
      aria-expanded={isOpen}
      onClick={() => {
        workplace.exporting.value = isOpen ? null : head.id;
      }}
    >
      {children}
    </button>
  );
}
