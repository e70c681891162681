import type { ComponentChildren } from "preact";
import type { Gain } from "../../../device/spotter/profile.ts";
import { harmless } from "../../../measure/harmless.ts";
import { gainWords } from "../../own-voice/wording.ts";

interface LearnedProps {
  readonly name: string;
  readonly gain: Gain;
  readonly kept: boolean;
  /** Whether key words are listened for at all. */
  readonly keyWords: boolean;
  readonly children: ComponentChildren;
}

/** What came of it, in figures of the takes that were held back. */
export function Learned({ name, gain, kept, keyWords, children }: LearnedProps) {
  return (
    <section class="own-voice-end">
      <p class="own-voice-told" role="status">
        {gainWords(gain)}
      </p>
      <dl class="own-voice-figures">
        <div>
          <dt>Before</dt>
          <dd>
            {gain.rightBefore} of {gain.heldBack}
          </dd>
        </div>
        <div>
          <dt>{kept ? "Now" : "After learning"}</dt>
          <dd>
            {gain.rightAfter} of {gain.heldBack}
          </dd>
        </div>
      </dl>
      <p>
        Heard right, of the takes that nothing was learned from. Few takes are a rough measure, in the room in
        which they were said.
      </p>
      {kept && (
        <p>
          The voice of {harmless(name)} is kept on this device, and{" "}
          {keyWords
            ? "key words are heard with it from now on"
            : "is used once key words are switched on in the settings: they are off now"}
          . It can be switched off, saved as a file and deleted in the settings. The recordings are gone.
        </p>
      )}
      <div class="row-buttons">{children}</div>
    </section>
  );
}
