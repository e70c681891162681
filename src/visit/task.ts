import { z } from "zod";

/** The words of a note that something came from, in UTF-16 units of its text: `from` is in it, `to` is not. */
export const Span = z
  .strictObject({ from: z.int().min(0), to: z.int().min(1) })
  .refine(({ from, to }) => from < to, "expected from below to");
export type Span = z.infer<typeof Span>;

export const TASK_ACTIONS = [
  "replace",
  "order",
  "bring",
  "clean",
  "check",
  "repair",
  "fit",
  "remove",
  "adjust",
  "call",
  "return",
  "tell",
  "quote",
  "other",
] as const;
export const TaskAction = z.enum(TASK_ACTIONS);
export type TaskAction = z.infer<typeof TaskAction>;

/** People are kept by what they are to the visit, never by name. */
export const ROLES = [
  "customer",
  "owner",
  "tenant",
  "caretaker",
  "manager",
  "office",
  "technician",
  "electrician",
  "plumber",
  "supplier",
  "authority",
] as const;
export const Role = z.enum(ROLES);
export type Role = z.infer<typeof Role>;

/** A value and the words that it came from; null: a reviewer typed it in. */
const fromWords = <T extends z.ZodType>(value: T) => z.strictObject({ value, span: Span.nullable() });

/** Something that was done or is to be done, as a note says it. */
export const Task = z.strictObject({
  action: fromWords(TaskAction),
  /** What it is done to, in the note's own words: "condensate trap gasket". */
  thing: fromWords(z.string().min(1).max(200)).nullable(),
  /** When, as a day at the place of the visit, YYYY-MM-DD; its value null where the words name no day: "before the heating season". */
  due: fromWords(z.iso.date().nullable()).nullable(),
  /** Who is to do it, or is called or told. */
  who: fromWords(Role).nullable(),
  /** Whether it was done in the visit: then it is no follow-up. */
  done: z.boolean(),
});
export type Task = z.infer<typeof Task>;

/** Tasks that one note may have. */
export const MOST_TASKS = 20;

/** Whether everything that came from words came from words that the note has. */
export function isWithin({ action, thing, due, who }: Task, text: string): boolean {
  return [action, thing, due, who].every((part) => !part?.span || part.span.to <= text.length);
}
