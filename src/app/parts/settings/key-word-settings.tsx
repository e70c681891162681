import type { Workplace } from "../../workplace.ts";

/** Whether key words are listened for, what they are and what they cost. */
export function KeyWordSettings({ workplace }: { readonly workplace: Workplace }) {
  const { keyWords } = workplace.settings.value;
  return (
    <>
      <fieldset class="field">
        <legend>Key words</legend>
        <label class="option">
          <input
            type="checkbox"
            name="key-words"
            checked={keyWords}
            onChange={() => void workplace.changeSettings({ keyWords: !keyWords })}
          />
          <span>Listen for key words too</span>
        </label>
      </fieldset>
      <p>
        A small second recogniser hears “yes”, “no”, “stop”, “again”, “next”, “mark”, “high”, “low” and the
        figures where the burner drowns phrases. It answers the app's questions, takes a number figure by
        figure, and after “stop listening” waits for “mark”, with the microphone open. Sound stays on this
        device. It takes some of the battery all the while: on a slow device switch it off.
      </p>
    </>
  );
}
