import { type HeardPhrase, piecesOf } from "../../boiler/heard-phrase.ts";

/** A phrase as it was heard: what was understood underlined, what was passed over faint. */
export function HeardWords({ heard }: { readonly heard: Pick<HeardPhrase, "text" | "stretches"> }) {
  return (
    <span class="heard-words">
      “
      {piecesOf(heard).map(({ text, understood }, i) => {
        const key = `${i} ${text}`;
        return understood ? (
          <u key={key}>{text}</u>
        ) : (
          <span key={key} class="heard-skipped">
            {text}
          </span>
        );
      })}
      ”
    </span>
  );
}
