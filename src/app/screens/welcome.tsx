import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { Talkativeness } from "../../answer/talk.ts";
import { UnitSystem } from "../../measure/firing.ts";
import { Cautions } from "../parts/cautions.tsx";
import { Choice } from "../parts/choice.tsx";
import { NoticeBoard } from "../parts/notice-board.tsx";
import { Plate } from "../parts/plate.tsx";
import { MicrophonePart } from "../parts/start/microphone-part.tsx";
import { THEMES } from "../settings.ts";
import { TALK_NAMES, THEME_NAMES, UNIT_NAMES } from "../wording.ts";
import type { Workplace } from "../workplace.ts";

/** The first run: the cautions, a few choices, the microphone. Until the cautions are read nothing else opens. */
export function Welcome({ workplace }: { readonly workplace: Workplace }) {
  const { check } = workplace;
  const settings = workplace.settings.value;
  const read = useSignal(settings.welcomed);
  useEffect(() => () => void check.end(), []);
  const goOn = async () => {
    if (!read.value) return;
    await workplace.changeSettings({ welcomed: true });
    await workplace.goTo({ kind: "start" });
  };
  return (
    <main class="page welcome">
      <Plate label="Burnerside">
        <header class="nameplate">
          <h1>Burnerside</h1>
          <p>Says what is out of limits, which screw, which way, how far</p>
        </header>
        <section class="caution-block" aria-labelledby="cautions-heading">
          <h2 id="cautions-heading">Caution</h2>
          <Cautions />
          <label class="option cautions-read">
            <input
              type="checkbox"
              name="cautions-read"
              checked={read.value}
              onChange={(event) => {
                read.value = event.currentTarget.checked;
              }}
            />
            <span>I have read this, and I am licensed for this work</span>
          </label>
        </section>
        <NoticeBoard workplace={workplace} />
        <div class="welcome-choices">
          <Choice
            legend="Units"
            name="units"
            options={UnitSystem.options.map((one) => [one, UNIT_NAMES[one]] as const)}
            value={settings.units}
            onChange={(units) => void workplace.changeSettings({ units })}
          />
          <Choice
            legend="How much is said"
            name="talk"
            options={Talkativeness.options.map((one) => [one, TALK_NAMES[one]] as const)}
            value={settings.talk}
            onChange={(talk) => void workplace.changeSettings({ talk })}
          />
          <Choice
            legend="Screen"
            name="theme"
            options={THEMES.map((one) => [one, THEME_NAMES[one]] as const)}
            value={settings.theme}
            onChange={(theme) => void workplace.changeSettings({ theme })}
          />
        </div>
        <MicrophonePart check={check} />
        <div class="welcome-end">
          <p id="welcome-says">
            {read.value
              ? "All of this can be changed later, under Settings. The microphone check can be left out."
              : "First read the cautions above and say so."}
          </p>
          <button
            type="button"
            class="main-button"
            aria-disabled={!read.value}
            aria-describedby="welcome-says"
            onClick={() => void goOn()}
          >
            To the start
          </button>
        </div>
      </Plate>
    </main>
  );
}
