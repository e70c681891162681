import type { SheetForm } from "../../sheets/form.ts";

/** The id of a field, of its place in the sheet. */
export function fieldId(path: string): string {
  return `field ${path}`.replaceAll(" ", "-");
}

function notesId(path: string): string {
  return `notes-${fieldId(path)}`;
}

/** What is wrong or doubtful at a place; always there, so that what comes into it is told. */
export function Notes({ form, path }: { readonly form: SheetForm; readonly path: string }) {
  const problems = form.problemsAt(path);
  const doubts = form.doubtsAt(path);
  return (
    <div id={notesId(path)} class="field-notes" aria-live="polite">
      {problems.map(({ message }) => (
        <p key={message} class="field-problem">
          <b>To mend:</b> {message}
        </p>
      ))}
      {doubts.map(({ message }) => (
        <p key={message} class="field-doubt">
          <b>Look again:</b> {message}
        </p>
      ))}
    </div>
  );
}

/** What an input says of itself, by the notes of its own place and of the places around it. */
export function described(form: SheetForm, ...paths: readonly string[]) {
  return {
    "aria-invalid": paths.some((path) => form.problemsAt(path).length > 0),
    "aria-describedby": paths.map(notesId).join(" "),
  };
}
