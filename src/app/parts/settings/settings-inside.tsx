import { useSignal } from "@preact/signals";
import { Talkativeness } from "../../../answer/talk.ts";
import { UnitSystem } from "../../../measure/firing.ts";
import { THEMES } from "../../settings.ts";
import { TALK_NAMES, THEME_NAMES, UNIT_NAMES } from "../../wording.ts";
import type { Workplace } from "../../workplace.ts";
import { Choice } from "../choice.tsx";
import { ClipSettings } from "./clip-settings.tsx";
import { DeviceSettings } from "./device-settings.tsx";
import { KeyWordSettings } from "./key-word-settings.tsx";
import { OwnVoiceSettings } from "./own-voice-settings.tsx";
import { RecordSettings } from "./record-settings.tsx";

/** What is chosen once for this device: light, units, talk, headset, which recogniser listens, whether sound is kept. */
export function SettingsInside({ workplace }: { readonly workplace: Workplace }) {
  const asking = useSignal(false);
  const refused = useSignal(false);
  const { ear, talk, headset, theme, units } = workplace.settings.value;

  const choosePlatform = async () => {
    const offer = await workplace.ears.platformOffer();
    refused.value = offer === "none";
    asking.value = offer === "may-send";
    if (offer === "on-device") await workplace.changeSettings({ ear: "platform", platformMaySend: false });
  };
  const answer = async (yes: boolean) => {
    asking.value = false;
    if (yes) await workplace.changeSettings({ ear: "platform", platformMaySend: true });
  };

  return (
    <>
      <Choice
        legend="Screen"
        name="theme"
        options={THEMES.map((one) => [one, THEME_NAMES[one]] as const)}
        value={theme}
        onChange={(chosen) => void workplace.changeSettings({ theme: chosen })}
      />
      <Choice
        legend="Units of new visits"
        name="settings-units"
        options={UnitSystem.options.map((one) => [one, UNIT_NAMES[one]] as const)}
        value={units}
        onChange={(chosen) => void workplace.changeSettings({ units: chosen })}
      />
      <Choice
        legend="How much is said"
        name="talk"
        options={Talkativeness.options.map((one) => [one, TALK_NAMES[one]] as const)}
        value={talk}
        onChange={(level) => void workplace.changeSettings({ talk: level })}
      />
      <p>Warnings are always said in full. At the boiler, “talk less” and “talk more” change the same.</p>
      <fieldset class="field">
        <legend>Who listens</legend>
        <div class="options">
          <label class="option">
            <input
              type="radio"
              name="ear"
              checked={ear === "offline" && !asking.value}
              onChange={() => void workplace.changeSettings({ ear: "offline", platformMaySend: false })}
            />
            <span>Burnerside's own recogniser, on this device</span>
          </label>
          <label class="option">
            <input
              type="radio"
              name="ear"
              checked={ear === "platform" || asking.value}
              onChange={() => void choosePlatform()}
            />
            <span>The browser's recogniser</span>
          </label>
        </div>
      </fieldset>
      {refused.value && <p role="status">This browser has no recogniser of its own.</p>}
      {asking.value && (
        <div class="question" role="alertdialog" aria-label="Sound may leave this device">
          <p>
            This browser's recogniser may send the sound of your microphone to a server. Let sound leave this
            device?
          </p>
          <button type="button" class="main-button" onClick={() => void answer(false)}>
            No, keep it here
          </button>
          <button type="button" onClick={() => void answer(true)}>
            Yes, let it leave
          </button>
        </div>
      )}
      <fieldset class="field">
        <legend>Where the voice sounds</legend>
        <label class="option">
          <input
            type="checkbox"
            name="headset"
            checked={headset}
            onChange={() => void workplace.changeSettings({ headset: !headset })}
          />
          <span>I wear a headset</span>
        </label>
      </fieldset>
      <p>
        With a headset you can talk over the answers, readings too. Leave this off while the voice comes from
        a loudspeaker: the microphone would hear it, and its own words could be logged.
      </p>
      <KeyWordSettings workplace={workplace} />
      <OwnVoiceSettings workplace={workplace} />
      <RecordSettings workplace={workplace} />
      <ClipSettings workplace={workplace} />
      <DeviceSettings workplace={workplace} />
      <div class="settings-part">
        <button type="button" onClick={() => void workplace.goTo({ kind: "welcome" })}>
          Cautions and microphone check
        </button>
      </div>
    </>
  );
}
