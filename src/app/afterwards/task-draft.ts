import { ROLES, type Role, TASK_ACTIONS, Task, type TaskAction } from "../../visit/task.ts";

/** A task as a form has it. */
export interface TaskDraft {
  readonly action: string;
  readonly thing: string;
  /** YYYY-MM-DD; "" for none. */
  readonly day: string;
  /** "" for nobody. */
  readonly who: string;
  readonly done: boolean;
}

export const ACTION_NAMES: Readonly<Record<TaskAction, string>> = {
  replace: "Replace",
  order: "Order",
  bring: "Bring",
  clean: "Clean",
  check: "Check",
  repair: "Repair",
  fit: "Fit",
  remove: "Remove",
  adjust: "Adjust",
  call: "Call",
  return: "Come back",
  tell: "Tell or ask",
  quote: "Quote a price",
  other: "Other",
};

export const ROLE_NAMES: Readonly<Record<Role, string>> = {
  customer: "Customer",
  owner: "Owner",
  tenant: "Tenant",
  caretaker: "Caretaker",
  manager: "Manager",
  office: "Office",
  technician: "Technician",
  electrician: "Electrician",
  plumber: "Plumber",
  supplier: "Supplier",
  authority: "Authority",
};

/** Nothing is chosen yet: an action is to be named. */
export const NEW_TASK: TaskDraft = { action: "", thing: "", day: "", who: "", done: false };

export function draftOf({ action, thing, due, who, done }: Task): TaskDraft {
  return {
    action: action.value,
    thing: thing?.value ?? "",
    day: due?.value ?? "",
    who: who?.value ?? "",
    done,
  };
}

/**
 * The task that a form asks for; null where it cannot be. What was left as it was still comes from the words that it came from;
 * what was typed in comes from none. `before`: the task that is changed, null for a new one.
 */
export function taskFrom(draft: TaskDraft, before: Task | null): Task | null {
  const action = TASK_ACTIONS.find((one) => one === draft.action);
  const who = ROLES.find((one) => one === draft.who);
  if (!action || (draft.who !== "" && !who)) return null;
  const thing = draft.thing.trim();
  const kept = <T>(value: T, field: { readonly value: T; readonly span: Task["action"]["span"] } | null) =>
    field?.value === value ? field : { value, span: null };
  const task = Task.safeParse({
    action: kept(action, before?.action ?? null),
    thing: thing === "" ? null : kept(thing, before?.thing ?? null),
    due: draft.done ? null : dueFrom(draft.day, before?.due ?? null),
    who: who ? kept(who, before?.who ?? null) : null,
    done: draft.done,
  });
  return task.data ?? null;
}

/** A day that was taken out is gone; words that named none stay, as nobody has said otherwise. */
function dueFrom(day: string, before: Task["due"]): Task["due"] {
  if (day === "") return before?.value === null ? before : null;
  return before?.value === day ? before : { value: day, span: null };
}
