import type { Incoming, Session } from "../../boiler/session.ts";

/** What could not be stored, said plainly, with the words kept on the screen. */
export function HeldPhrases({ session }: { readonly session: Session }) {
  const trouble = session.trouble.value;
  if (trouble === null) return null;
  return (
    <section class="held" role="alert" aria-label="Not saved">
      <p class="held-word">Not saved</p>
      <p>The notebook took nothing of this: {trouble}.</p>
      <ul>
        {session.held.value.map((incoming) => (
          <li key={`${incoming.at} ${wordsOf(incoming)}`}>{wordsOf(incoming)}</li>
        ))}
      </ul>
      <div class="row-buttons">
        <button type="button" class="main-button" onClick={() => void session.retry()}>
          Try again
        </button>
        <button type="button" onClick={() => session.drop()}>
          Drop it
        </button>
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
