import { useSignal } from "@preact/signals";
import { useLayoutEffect } from "preact/hooks";
import { CLOSING_CHECKS, type ClosingCheck } from "../../../measure/firing.ts";
import { CHECK_NAMES } from "../../../record/wording.ts";
import type { SheetForm } from "../../sheets/form.ts";
import { fieldId, Notes } from "./notes.tsx";

/** What has to be closed before leaving, in order: to be taken in, left out and moved. */
export function ClosingFields({ form }: { readonly form: SheetForm }) {
  const { closing } = form.draft.value;
  const moved = useSignal<string | null>(null);
  const others = CLOSING_CHECKS.filter((check) => !closing.includes(check));
  const set = (next: readonly ClosingCheck[]) => form.change({ closing: [...next] });
  const move = (at: number, by: -1 | 1) => {
    const [check, other] = [closing[at], closing[at + by]];
    if (check === undefined || other === undefined) return;
    set(closing.map((one, place) => (place === at ? other : place === at + by ? check : one)));
    moved.value = buttonId(check, by);
  };

  // The button moves with its check: the focus goes with it, or to its twin where it can go no further.
  useLayoutEffect(() => {
    if (moved.value === null) return;
    const button = document.getElementById(moved.value);
    const twin = button?.parentElement?.querySelector<HTMLButtonElement>("button:not(:disabled)");
    if (button instanceof HTMLButtonElement && !button.disabled) button.focus();
    else twin?.focus();
    moved.value = null;
  }, [closing]);

  return (
    <section class="sheet-part" aria-labelledby="closing-heading" id={fieldId("closing")} tabIndex={-1}>
      <h2 id="closing-heading">To be closed before leaving, in this order</h2>
      <ol class="closing">
        {closing.map((check, at) => (
          <li key={check}>
            <span>
              {at + 1}. {CHECK_NAMES[check]}
            </span>
            <div class="row-buttons">
              <button
                type="button"
                id={buttonId(check, -1)}
                aria-label={`Move “${CHECK_NAMES[check]}” up`}
                disabled={at === 0}
                onClick={() => move(at, -1)}
              >
                Up
              </button>
              <button
                type="button"
                id={buttonId(check, 1)}
                aria-label={`Move “${CHECK_NAMES[check]}” down`}
                disabled={at === closing.length - 1}
                onClick={() => move(at, 1)}
              >
                Down
              </button>
              <button
                type="button"
                aria-label={`Leave out “${CHECK_NAMES[check]}”`}
                onClick={() => set(closing.filter((one) => one !== check))}
              >
                Leave out
              </button>
            </div>
          </li>
        ))}
      </ol>
      {others.length > 0 && (
        <div class="closing-others">
          <h3>Left out</h3>
          <ul class="closing">
            {others.map((check) => (
              <li key={check}>
                <span>{CHECK_NAMES[check]}</span>
                <button
                  type="button"
                  aria-label={`Take in “${CHECK_NAMES[check]}”`}
                  onClick={() => set([...closing, check])}
                >
                  Take in
                </button>
              </li>
            ))}
          </ul>
        </div>
      )}
      <Notes form={form} path="closing" />
    </section>
  );
}

function buttonId(check: ClosingCheck, by: -1 | 1): string {
  return `${by < 0 ? "up" : "down"}-${check}`;
}
