import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import type { VoiceProfile } from "../../../device/spotter/voice-profile.ts";
import { shownDay } from "../../../record/wording.ts";
import type { People } from "../../own-voice/people.ts";
import type { Workplace } from "../../workplace.ts";

interface PersonProps {
  readonly workplace: Workplace;
  readonly people: People;
  readonly voice: VoiceProfile;
  /** As in `labelsOf`. */
  readonly name: string;
  /** What else was learned of them. */
  readonly children: ComponentChildren;
}

/** One of the people: how well they are heard, and what can be done with their voice. */
export function Person({ workplace, people, voice, name, children }: PersonProps) {
  const saved = useSignal("");
  const { heldBack, rightBefore, rightAfter } = voice.gain;
  const save = () => {
    const file = people.export(voice.id);
    saved.value = file === null ? "" : `Saved: ${file}`;
  };
  return (
    <li>
      <div>
        <strong>{name}</strong>
        <span>
          Taught on {shownDay(voice.taughtAt.slice(0, 10))}. Of {heldBack} takes held back {rightBefore} were
          heard right before, {rightAfter} after.
        </span>
        {!people.fits(voice) && <span role="alert">It was taught to an older ear: teach it again.</span>}
        <label class="option">
          <input
            type="checkbox"
            aria-label={`Use the voice of ${name}`}
            checked={voice.on}
            onChange={() => void people.switch(voice.id, !voice.on)}
          />
          <span>Use it when {name} speaks</span>
        </label>
      </div>
      <div class="row-buttons">
        <button
          type="button"
          aria-label={`Teach the voice of ${name} again`}
          onClick={() => void workplace.goTo({ kind: "own-voice", id: voice.id })}
        >
          Teach again
        </button>
        <button type="button" aria-label={`Export the voice of ${name}`} onClick={save}>
          Export
        </button>
        <button
          type="button"
          class="plain"
          aria-label={`Delete the voice of ${name}`}
          onClick={() => {
            void people.remove(voice.id).then(() => document.getElementById("own-voice-heading")?.focus());
          }}
        >
          Delete
        </button>
      </div>
      <p class="sheet-row-told" role="status">
        {saved.value}
      </p>
      {children}
    </li>
  );
}
