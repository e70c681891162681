import { sizeOf } from "../../boiler/face.ts";
import type { HeardPhrase } from "../../boiler/heard-phrase.ts";
import { HeardWords } from "./heard-words.tsx";

/** What was heard and not understood, in the place of an answer: the one before is none to it. */
export function HeardNothing({ heard }: { readonly heard: HeardPhrase | null }) {
  const passedOver = heard?.answered === false ? heard : null;
  return (
    <div class="heard-status" role="status">
      {passedOver && (
        <p class={`heard-nothing answer-${sizeOf(passedOver.text)}`}>
          Nothing for the log: <HeardWords heard={passedOver} />
        </p>
      )}
    </div>
  );
}
