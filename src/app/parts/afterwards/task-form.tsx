import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { ROLES, TASK_ACTIONS, type Task } from "../../../visit/task.ts";
import {
  ACTION_NAMES,
  draftOf,
  NEW_TASK,
  ROLE_NAMES,
  type TaskDraft,
  taskFrom,
} from "../../afterwards/task-draft.ts";
import { Alert } from "../alert.tsx";

interface FormProps {
  /** The task that is changed; null for a new one. */
  readonly task: Task | null;
  /** The note's words. */
  readonly text: string;
  readonly keep: (task: Task) => Promise<void>;
  readonly close: () => void;
}

function problemOf({ action }: TaskDraft): string {
  return action === "" ? "Choose an action first: what is to be done?" : "A thing has at most 200 letters.";
}

/** What to do, to what, when and who, by hand. */
export function TaskForm({ task, text, keep, close }: FormProps) {
  const draft = useSignal<TaskDraft>(task ? draftOf(task) : NEW_TASK);
  const problem = useSignal<string | null>(null);
  const first = useRef<HTMLSelectElement>(null);
  useEffect(() => first.current?.focus(), []);
  const change = (changes: Partial<TaskDraft>) => {
    draft.value = { ...draft.value, ...changes };
  };
  const { action, thing, day, who, done } = draft.value;
  const undated = task?.due?.value === null && task.due.span;
  return (
    <form
      class="task-form"
      onSubmit={(event) => {
        event.preventDefault();
        const made = taskFrom(draft.value, task);
        problem.value = made ? null : problemOf(draft.value);
        if (made) void keep(made);
      }}
    >
      <label class="field">
        <span>Action</span>
        <select
          ref={first}
          value={action}
          onChange={(event) => change({ action: event.currentTarget.value })}
        >
          {task === null && <option value="">Choose …</option>}
          {TASK_ACTIONS.map((one) => (
            <option key={one} value={one}>
              {ACTION_NAMES[one]}
            </option>
          ))}
        </select>
      </label>
      <label class="field">
        <span>Thing</span>
        <input
          type="text"
          autocomplete="off"
          maxLength={200}
          value={thing}
          onInput={(event) => change({ thing: event.currentTarget.value })}
        />
      </label>
      {!done && (
        <label class="field">
          <span>
            Day{undated ? `; “${text.slice(undated.from, undated.to)}” names none` : ", where there is one"}
          </span>
          <input type="date" value={day} onInput={(event) => change({ day: event.currentTarget.value })} />
        </label>
      )}
      <label class="field">
        <span>Who does it, or is called or told</span>
        <select value={who} onChange={(event) => change({ who: event.currentTarget.value })}>
          <option value="">Nobody in particular</option>
          {ROLES.map((one) => (
            <option key={one} value={one}>
              {ROLE_NAMES[one]}
            </option>
          ))}
        </select>
      </label>
      <label class="option">
        <input
          type="checkbox"
          checked={done}
          onChange={(event) => change({ done: event.currentTarget.checked })}
        />{" "}
        Done in this visit
      </label>
      <div class="row-buttons">
        <button type="submit" class="main-button">
          Keep
        </button>
        <button type="button" onClick={close}>
          Leave it
        </button>
      </div>
      <Alert>{problem.value}</Alert>
    </form>
  );
}
