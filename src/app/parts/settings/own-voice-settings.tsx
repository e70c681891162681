import type { VoiceProfile } from "../../../device/spotter/voice-profile.ts";
import { harmless } from "../../../measure/harmless.ts";
import type { OwnVoice } from "../../own-voice/create.ts";
import { labelsOf } from "../../own-voice/labels.ts";
import type { Workplace } from "../../workplace.ts";
import { Choice } from "../choice.tsx";
import { LearnedPhrases } from "../own-voice/learning.tsx";
import { Person } from "../own-voice/person.tsx";
import { useOwnVoice } from "../own-voice/use-own-voice.ts";
import { Sentences } from "../sentences.tsx";
import "../../styles/own-voice.css";

/** Whose voices this device knows, and who speaks now. */
export function OwnVoiceSettings({ workplace }: { readonly workplace: Workplace }) {
  const { own, failed } = useOwnVoice(workplace);
  return (
    <section class="settings-part own-voice-people" aria-labelledby="own-voice-heading">
      <h2 id="own-voice-heading" tabIndex={-1}>
        Own voice
      </h2>
      <p>
        It can learn how you say the key words (the figures, yes, no, stop and a few more), with your accent
        or through a mask. It takes about three minutes of reading aloud. The recordings are not kept, only
        what was learned, on this device.
      </p>
      <button
        type="button"
        class="main-button"
        onClick={() => void workplace.goTo({ kind: "own-voice", id: null })}
      >
        Teach it your voice
      </button>
      {failed && <p role="alert">Own voice could not be loaded. Open the settings again with a network.</p>}
      {own && <Everybody workplace={workplace} own={own} />}
    </section>
  );
}

function Everybody({ workplace, own }: { readonly workplace: Workplace; readonly own: OwnVoice }) {
  const { people } = own;
  const bringIn = async (input: HTMLInputElement) => {
    const file = input.files?.[0];
    if (file) await people.bringIn(file);
    // So that the same file, mended, can be chosen again.
    input.value = "";
  };
  const voices = people.voices.value;
  const dropped = people.dropped.value;
  const labels = labelsOf(voices);
  const labelOf = ({ id, name }: VoiceProfile) => labels.get(id) ?? harmless(name);
  const { speaker, keyWords } = workplace.settings.value;
  const anybody = voices.some(({ id }) => id === speaker) ? (speaker ?? "") : "";
  return (
    <>
      {voices.length > 0 && (
        <>
          <Choice
            legend="Who speaks now"
            name="speaker"
            options={[
              ["", "Anybody"],
              ...voices.map((voice): readonly [string, string] => [voice.id, labelOf(voice)]),
            ]}
            value={anybody}
            onChange={(id) => void people.choose(id === "" ? null : id)}
          />
          {!keyWords && (
            <p>Key words are switched off above: what was learned of them rests until they are on again.</p>
          )}
          <ul class="rows">
            {voices.map((voice) => (
              <Person
                key={voice.id}
                workplace={workplace}
                people={people}
                voice={voice}
                name={labelOf(voice)}
              >
                <LearnedPhrases learning={own.learning} voice={voice} name={labelOf(voice)} />
              </Person>
            ))}
          </ul>
        </>
      )}
      {people.damaged.value.map((id) => (
        <div class="ahead" key={id}>
          <p role="alert">A voice that is stored here cannot be read any more.</p>
          <button type="button" class="plain" onClick={() => void people.remove(id)}>
            Delete it
          </button>
        </div>
      ))}
      {dropped && (
        <div class="ahead" role="status">
          <p>The voice of {harmless(dropped.name)} is deleted.</p>
          <button type="button" class="plain" onClick={() => void people.undo()}>
            Undo
          </button>
        </div>
      )}
      <label class="file">
        <span>Bring in a voice from a file</span>
        <input
          type="file"
          accept=".json,application/json"
          onChange={(event) => void bringIn(event.currentTarget)}
        />
      </label>
      <CameOfIt own={own} />
    </>
  );
}

function CameOfIt({ own: { people } }: { readonly own: OwnVoice }) {
  const came = people.broughtIn.value;
  if (!came) return null;
  return (
    <div class={`notice notice-${came.kept ? "done" : "problem"}`} role={came.kept ? "status" : "alert"}>
      {!came.kept && <p>Nothing was taken in:</p>}
      <Sentences sentences={came.sentences} />
      <button type="button" class="plain" onClick={() => people.close()}>
        Close
      </button>
    </div>
  );
}
