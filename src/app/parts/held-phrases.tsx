import type { Session } from "../session.ts";

/** What could not be stored, said plainly, with the words kept on the screen. */
export function HeldPhrases({ session }: { readonly session: Session }) {
  const trouble = session.trouble.value;
  if (trouble === null) return null;
  return (
    <section class="held" role="alert" aria-label="Not saved">
      <p class="held-word">Not saved</p>
      <p>The notebook took nothing of this: {trouble}.</p>
      <ul>
        {session.held.value.map(({ phrase, at }) => (
          <li key={`${at} ${phrase.text}`}>“{phrase.text}”</li>
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
