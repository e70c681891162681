import { useSignal } from "@preact/signals";
import { useRef } from "preact/hooks";
import { capital } from "../../../measure/capital.ts";
import { noteOf, tasksInWords } from "../../../record/notes/notes.ts";
import { actionInWords, taskInShort } from "../../../record/task-words.ts";
import { shownDay } from "../../../record/wording.ts";
import type { LoggedItem, VisitState } from "../../../visit/state.ts";
import { MOST_TASKS, type Task } from "../../../visit/task.ts";
import type { Afterwards } from "../../afterwards/afterwards.ts";
import { noteWords } from "../../afterwards/note-words.ts";
import { ACTION_NAMES, ROLE_NAMES } from "../../afterwards/task-draft.ts";
import { Alert } from "../alert.tsx";
import { TaskForm } from "./task-form.tsx";

export interface NoteProps {
  readonly afterwards: Afterwards;
  readonly state: VisitState;
  readonly item: LoggedItem;
}

/** A note's words, those that something came from underlined, each kind in its own way. */
export function NoteText({ state, item }: NoteProps) {
  const note = noteOf(state, item);
  if (!note) return null;
  return (
    <>
      {"Note: "}
      {noteWords(note.text, note.tasks).map(({ text, from }, place) => {
        const key = `${place} ${text}`;
        return from ? (
          <u key={key} class={`from-${from}`}>
            {text}
          </u>
        ) : (
          <span key={key}>{text}</span>
        );
      })}
    </>
  );
}

/** What a note asks for, task by task, with the words that each came from; and its mending. */
export function NoteMeaning({ afterwards, state, item }: NoteProps) {
  const note = noteOf(state, item);
  /** Place of the task that is changed; -1: a new one. */
  const open = useSignal<number | null>(null);
  const problem = useSignal<string | null>(null);
  const part = useRef<HTMLDivElement>(null);
  if (!note) return null;
  const { id, text, tasks, by } = note;
  const inWords = tasksInWords(state, item);
  const isAsSaid = JSON.stringify(inWords) === JSON.stringify(tasks);

  const keep = async (next: readonly Task[]) => {
    const refusal = await afterwards.amend({ kind: "tasks", id, tasks: next });
    problem.value = refusal?.problem ?? null;
    if (!refusal) close();
  };
  /** What was tapped is gone: whoever works by keyboard goes on from here. */
  const close = () => {
    open.value = null;
    part.current?.focus({ preventScroll: true });
  };
  const form = (place: number, task: Task | null) => (
    <TaskForm
      task={task}
      text={text}
      close={close}
      keep={(next) => keep(task ? tasks.with(place, next) : [...tasks, next])}
    />
  );
  return (
    <div class="meaning" ref={part} tabIndex={-1}>
      <h3>What the note asks for</h3>
      {tasks.length === 0 && <p class="faint">Nothing to follow up.</p>}
      {tasks.length > 0 && (
        <ul class="tasks">
          {tasks.map((task, place) => {
            const short = taskInShort(task, text);
            return (
              <li key={`${place} ${short}`} class="task">
                <p>
                  <span class="tag">{task.done ? "done" : "to do"}</span> <strong>{short}</strong>
                </p>
                <Fields task={task} text={text} />
                {open.value === place ? (
                  form(place, task)
                ) : (
                  <div class="row-buttons">
                    <button
                      type="button"
                      aria-label={`Change: ${short}`}
                      onClick={() => {
                        open.value = place;
                      }}
                    >
                      Change
                    </button>
                    <button
                      type="button"
                      aria-label={`Remove: ${short}`}
                      onClick={() => void keep(tasks.toSpliced(place, 1))}
                    >
                      Remove
                    </button>
                  </div>
                )}
              </li>
            );
          })}
        </ul>
      )}
      {open.value === -1 && form(-1, null)}
      <div class="row-buttons">
        {by === "words" && tasks.length > 0 && (
          <button
            type="button"
            aria-label={`Right as it is: what “${text}” asks for`}
            onClick={() => void keep(tasks)}
          >
            Right as it is
          </button>
        )}
        {open.value !== -1 && tasks.length < MOST_TASKS && (
          <button
            type="button"
            aria-label={`Add to what “${text}” asks for`}
            onClick={() => {
              open.value = -1;
            }}
          >
            Add
          </button>
        )}
        {!isAsSaid && (
          <button
            type="button"
            aria-label={`Back to what the words “${text}” say`}
            onClick={() => void keep(inWords)}
          >
            Back to what the words say
          </button>
        )}
      </div>
      {by === "reviewer" && <p class="faint">{isAsSaid ? "Found right by hand." : "Changed by hand."}</p>}
      <Alert>{problem.value}</Alert>
    </div>
  );
}

type Said = Task["action"]["span"];

/** Field by field what it is, and the words that it came from. */
function Fields({ task, text }: { readonly task: Task; readonly text: string }) {
  const { action, thing, due, who } = task;
  const words = (value: string, span: Said) => {
    const said = span && text.slice(span.from, span.to);
    if (said === null) return "typed in";
    // What stands in the same words beside it need not be said twice.
    return said.toLowerCase() === value.toLowerCase() ? "said" : `“${said}”`;
  };
  const field = (from: string, name: string, value: string, span: Said) => (
    <li>
      <u class={`from-${from}`}>{name}</u> <b>{value}</b> <span>{words(value, span)}</span>
    </li>
  );
  return (
    <ul class="fields-said">
      {field("action", "Action", actionName(task, text), action.span)}
      {thing && field("thing", "Thing", thing.value, thing.span)}
      {due && field("due", "When", due.value === null ? "no day named" : dayWithName(due.value), due.span)}
      {who && field("who", "Who", ROLE_NAMES[who.value], who.span)}
    </ul>
  );
}

/** In the note's own verb where there is one: "Top up". */
function actionName(task: Task, text: string): string {
  const { value, span } = task.action;
  return span && value !== "quote"
    ? capital(actionInWords(task, text).replace(":", ""))
    : ACTION_NAMES[value];
}

/** "Tuesday, 1 Dec 2026". */
function dayWithName(day: string): string {
  const name = new Date(`${day}T00:00:00Z`).toLocaleDateString("en-GB", { timeZone: "UTC", weekday: "long" });
  return `${name}, ${shownDay(day)}`;
}
