import { useSignal } from "@preact/signals";
import { harmless } from "../../../measure/harmless.ts";
import { dayTime } from "../../../record/wording.ts";
import type { VisitState } from "../../../visit/state.ts";
import type { Visit } from "../../../visit/visit.ts";
import type { Workplace } from "../../workplace.ts";
import { Alert } from "../alert.tsx";

interface LooksRightProps {
  readonly workplace: Workplace;
  readonly visit: Visit;
  readonly state: VisitState;
  /** How many utterances still need a look. */
  readonly needs: number;
  /** What is still open, in one sentence; "" where nothing is. */
  readonly open: string;
}

/** Who found the visit right, and when; or the form to say so. What is logged later opens it again. */
export function LooksRight({ workplace, visit, state, needs, open }: LooksRightProps) {
  const name = useSignal(workplace.settings.value.reviewer);
  const problem = useSignal<string | null>(null);
  const { reviewed } = state;
  const before = visit.entries.findLast(({ body }) => body.kind === "reviewed");
  const { zone } = visit.head;
  if (reviewed) {
    return (
      <p class="reviewed" role="status">
        Looks right: <strong>{harmless(reviewed.by)}</strong>, {dayTime(reviewed.at, zone)}. Any later change
        opens it again.
      </p>
    );
  }
  const keep = async (event: SubmitEvent) => {
    event.preventDefault();
    const refusal = await workplace.afterwards.amend({ kind: "review", by: name.value });
    problem.value = refusal?.problem ?? null;
  };
  return (
    <form class="looks-right" onSubmit={(event) => void keep(event)}>
      {before?.body.kind === "reviewed" && (
        <p>
          Found right by {harmless(before.body.by)}, {dayTime(before.at, zone)}, and changed since.
        </p>
      )}
      {needs > 0 && (
        <p>{needs === 1 ? "One utterance still needs a look." : `${needs} utterances still need a look.`}</p>
      )}
      <label class="field">
        <span>Your name</span>
        <input
          type="text"
          name="reviewer"
          autocomplete="name"
          maxLength={80}
          value={name.value}
          onInput={(event) => {
            name.value = event.currentTarget.value;
          }}
        />
      </label>
      {open !== "" && (
        <p id="still-open">
          <strong>{open}</strong>
        </p>
      )}
      <button type="submit" class="main-button" aria-describedby={open === "" ? undefined : "still-open"}>
        Looks right
      </button>
      <Alert>{problem.value}</Alert>
    </form>
  );
}
