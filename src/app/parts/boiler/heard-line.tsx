import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { Session } from "../../boiler/session.ts";
import { HeardThing } from "./heard-thing.tsx";
import { HeardWords } from "./heard-words.tsx";

/** The last utterance as heard; tapped, it opens into what was understood, to strike or mend. */
export function HeardLine({ session }: { readonly session: Session }) {
  const heard = session.heard.value;
  const open = useSignal(false);
  useEffect(() => {
    open.value = false;
  }, [heard]);
  if (!heard?.answered) return null;
  if (heard.entries.length === 0) {
    return (
      <p class="heard" role="status">
        Heard <HeardWords heard={heard} />
      </p>
    );
  }
  return (
    <section class="heard" aria-label="Heard last">
      <button
        type="button"
        class="plain heard-open"
        aria-expanded={open.value}
        onClick={() => {
          open.value = !open.value;
        }}
      >
        Heard <HeardWords heard={heard} /> <span class="heard-hint">{open.value ? "close" : "mend"}</span>
      </button>
      {open.value && (
        <ul class="heard-things">
          {heard.entries.map((id) => (
            <HeardThing key={id} session={session} id={id} />
          ))}
        </ul>
      )}
    </section>
  );
}
