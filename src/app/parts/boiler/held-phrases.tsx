import type { Session } from "../../boiler/session.ts";
import type { Incoming } from "../../boiler/session-world.ts";
import type { Workplace } from "../../workplace.ts";

interface HeldProps {
  readonly workplace: Workplace;
  readonly session: Session;
}

/** What could not be stored, said plainly, with the words kept on the screen, and what can be done about it. */
export function HeldPhrases({ workplace, session }: HeldProps) {
  const { held } = session;
  const trouble = held.trouble.value;
  if (trouble === null) return null;
  const gone = held.gone.value;
  const warnings = held.warnings.value;
  const logged = session.visit.value.entries.length;
  return (
    <section class="held" role="alert" aria-label="Not saved">
      {warnings.map(({ code, text }) => (
        <p key={`${code} ${text}`} class="alert held-warning">
          {text}
        </p>
      ))}
      <p class="held-word">Not saved</p>
      <p>The notebook took nothing of this: {trouble}.</p>
      <ul>
        {held.incoming.value.map((incoming) => (
          <li key={`${incoming.at} ${wordsOf(incoming)}`}>{wordsOf(incoming)}</li>
        ))}
      </ul>
      <p>No verdict and no advice was given for it: go by your instruments.</p>
      {gone && (
        <p>
          What was logged before ({logged === 1 ? "one entry" : `${logged} entries`}) is still in this window,
          and nowhere else: store the visit anew, or save the log as a file, before you close or reload it.
        </p>
      )}
      <div class="row-buttons">
        {gone ? (
          <button type="button" class="main-button" onClick={() => void session.storeAnew()}>
            Store the visit anew
          </button>
        ) : (
          <button type="button" class="main-button" onClick={() => void session.retry()}>
            Try again
          </button>
        )}
        <button type="button" onClick={() => void workplace.saveOpen(session.visit.value)}>
          Save the log as a file
        </button>
        {/* With the box would go the only word of the visit being nowhere but here. */}
        {!gone && (
          <button type="button" onClick={() => session.drop()}>
            {held.incoming.value.length > 1 ? "Leave them unlogged" : "Leave it unlogged"}
          </button>
        )}
      </div>
    </section>
  );
}

function wordsOf(incoming: Incoming): string {
  if ("phrase" in incoming) return `“${incoming.phrase.text}”`;
  const { amendment } = incoming;
  switch (amendment.kind) {
    case "mend":
      return `Mended by hand to “${amendment.text}”`;
    case "pick":
    case "confirm":
      return "A correction by hand";
    case "strike":
    case "leave-out":
      return "Struck by hand";
    case "put-back":
      return "Put back by hand";
    case "review":
      return `Looks right: ${amendment.by}`;
    case "details":
      return "Details of the record";
    case "tasks":
      return "What a note asks for";
  }
}
