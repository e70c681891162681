/** So many are in sight; the rest is behind one tap. */
const IN_SIGHT = 5;

/** What there is to say, a sentence each. */
export function Sentences({ sentences }: { readonly sentences: readonly string[] }) {
  const list = (some: readonly string[]) => (
    <ul>
      {some.map((sentence) => (
        <li key={sentence}>{sentence}</li>
      ))}
    </ul>
  );
  const more = sentences.slice(IN_SIGHT);
  return (
    <>
      {list(sentences.slice(0, IN_SIGHT))}
      {more.length > 0 && (
        <details>
          <summary>{more.length === 1 ? "and one more" : `and ${more.length} more`}</summary>
          {list(more)}
        </details>
      )}
    </>
  );
}
