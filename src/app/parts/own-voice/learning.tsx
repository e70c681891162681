import type { VoiceProfile } from "../../../device/spotter/voice-profile.ts";
import { shownDay } from "../../../record/wording.ts";
import type { Learning } from "../../own-voice/learning.ts";

interface LearnedPhrasesProps {
  readonly learning: Learning;
  readonly voice: VoiceProfile;
  /** As in `labelsOf`. */
  readonly name: string;
}

/** What the phrase recogniser learned of one person, and how it may learn more, or forget it. */
export function LearnedPhrases({ learning, voice, name }: LearnedPhrasesProps) {
  const { id, phones } = voice;
  const mine = learning.of.value === id ? learning.state.value : null;
  return (
    <div class="own-voice-phrases">
      <span>
        {phones
          ? `Phrases: learned on ${shownDay(phones.learnedAt.slice(0, 10))} from ${phones.phrases}. Of ${phones.gain.heldBack} tries with phrases held back ${phones.gain.rightBefore} were right before, ${phones.gain.rightAfter} after.`
          : `Phrases: the ear can also learn from what ${name} logged and confirmed while chosen as the one who speaks, where its sound is kept.`}
      </span>
      {phones && (
        <label class="option">
          <input
            type="checkbox"
            aria-label={`Use what was learned of the phrases of ${name}`}
            checked={phones.on}
            onChange={() => void learning.switch(id, !phones.on)}
          />
          <span>Use it for phrases, too</span>
        </label>
      )}
      {mine?.kind === "learning" ? (
        <Progress fraction={mine.fraction} onCancel={() => learning.cancel()} />
      ) : (
        <div class="row-buttons">
          <button
            type="button"
            aria-label={`Learn from the phrases of ${name}`}
            onClick={() => void learning.learn(id)}
          >
            Learn from confirmed phrases
          </button>
          {phones && (
            <button
              type="button"
              class="plain"
              aria-label={`Forget what was learned of the phrases of ${name}`}
              onClick={() => void learning.forget(id)}
            >
              Forget
            </button>
          )}
        </div>
      )}
      <p class="sheet-row-told" role="status">
        {mine?.kind === "ended" ? mine.sentence : ""}
      </p>
    </div>
  );
}

function Progress({ fraction, onCancel }: { readonly fraction: number; readonly onCancel: () => void }) {
  return (
    <>
      <progress aria-label="Learning" value={fraction} max={1} />
      <button type="button" onClick={onCancel}>
        Cancel
      </button>
    </>
  );
}
