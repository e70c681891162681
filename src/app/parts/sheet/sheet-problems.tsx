import type { RefObject } from "preact";
import { fieldName } from "../../sheets/fields.ts";
import type { SheetForm } from "../../sheets/form.ts";
import { fieldId } from "./notes.tsx";

interface SheetProblemsProps {
  readonly form: SheetForm;
  readonly at: RefObject<HTMLElement | null>;
}

/** Everything that keeps the sheet from being kept, each a way to its field; and what to look at again. */
export function SheetProblems({ form, at }: SheetProblemsProps) {
  const { problems, doubts } = form.check.value;
  return (
    <section class="sheet-problems" aria-labelledby="problems-heading" ref={at} tabIndex={-1}>
      <h2 id="problems-heading">{heading(problems.length)}</h2>
      {problems.length > 0 && <NoteList notes={problems} />}
      {doubts.length > 0 && (
        <>
          <h3>Look again, if the paper really says so</h3>
          <NoteList notes={doubts} />
        </>
      )}
    </section>
  );
}

function heading(problems: number): string {
  if (problems === 0) return "Nothing is missing";
  return problems === 1 ? "One thing is missing or wrong" : `${problems} things are missing or wrong`;
}

function NoteList({ notes }: { readonly notes: readonly { path: string; message: string }[] }) {
  return (
    <ul>
      {notes.map(({ path, message }) => (
        <li key={`${path} ${message}`}>
          <a
            href={`#${fieldId(path)}`}
            onClick={(event) => {
              // The address belongs to the screens.
              event.preventDefault();
              goToField(path);
            }}
          >
            {fieldName(path)}
          </a>
          : {message}
        </li>
      ))}
    </ul>
  );
}

/** The field itself, else the first one inside its place. */
function goToField(path: string): void {
  const exact = document.getElementById(fieldId(path));
  const within = document.querySelector<HTMLElement>(`[id^="${CSS.escape(fieldId(`${path}.`))}"]`);
  const radio = exact?.querySelector<HTMLElement>("input:not(:disabled), button:not(:disabled)");
  const target = exact?.matches("input") ? exact : (radio ?? within ?? exact);
  target?.focus();
  target?.scrollIntoView({ block: "center" });
}
