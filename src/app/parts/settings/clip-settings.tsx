import { useSignal } from "@preact/signals";
import { CLIP_DAYS } from "../../settings.ts";
import type { Workplace } from "../../workplace.ts";
import { Choice } from "../choice.tsx";

/** Whether the sound of what was said is kept, and how long. */
export function ClipSettings({ workplace }: { readonly workplace: Workplace }) {
  const asking = useSignal(false);
  const { keepClips, clipDays } = workplace.settings.value;
  const answer = async (yes: boolean) => {
    if (yes) await workplace.changeSettings({ keepClips: false });
    asking.value = false;
  };
  const toggle = () => {
    if (keepClips) asking.value = true;
    else void workplace.changeSettings({ keepClips: true });
  };
  return (
    <div class="kept-sound">
      <fieldset class="field">
        <legend>The sound of what was said</legend>
        <label class="option">
          {/* Asked about first, it stays as it is until the answer. */}
          <input type="checkbox" name="keep-clips" checked={keepClips && !asking.value} onChange={toggle} />
          <span>Keep it beside the log, to be heard again</span>
        </label>
      </fieldset>
      <p>
        It stays on this device and is never in an exported visit; a backup of everything has it, unless you
        leave it out there. People near the microphone can be heard on it. The browser's recogniser gives no
        sound to keep.
      </p>
      {asking.value && (
        <div class="question" role="alertdialog" aria-label="Delete the kept sound">
          <p>This deletes all kept sound now, for good. What was logged stays.</p>
          <button type="button" class="main-button" onClick={() => void answer(false)}>
            No, keep the sound
          </button>
          <button type="button" onClick={() => void answer(true)}>
            Yes, delete it and keep no more
          </button>
        </div>
      )}
      {keepClips && (
        <Choice
          legend="Keep sound for"
          name="clip-days"
          options={CLIP_DAYS.map((days) => [String(days), `${days} days`] as const)}
          value={String(clipDays)}
          onChange={(chosen) => {
            const days = CLIP_DAYS.find((one) => String(one) === chosen);
            if (days !== undefined) void workplace.changeSettings({ clipDays: days });
          }}
        />
      )}
    </div>
  );
}
