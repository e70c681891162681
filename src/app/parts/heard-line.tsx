import type { Session } from "../session.ts";
import { HeardWords } from "./heard-words.tsx";

/** The last utterance as heard. */
export function HeardLine({ session }: { readonly session: Session }) {
  const heard = session.heard.value;
  if (!heard) return null;
  return (
    <section class="heard" aria-label="Heard last">
      <p role="status">
        Heard <HeardWords heard={heard} />
        {heard.stretches.length === 0 && <span class="heard-nothing"> nothing for the log</span>}
      </p>
    </section>
  );
}
