import type { AheadState } from "../../installed/ahead.ts";
import { type EarState, isOn } from "../../sound/listening.ts";
import type { Workplace } from "../../workplace.ts";

/** What the light shows. Each has its own shape and words; only while readings are taken is the whole area filled. */
export type Light = EarState["kind"] | "speaking" | "playing";

/** The huge listening button with its light. */
export function EarZone({ workplace }: { readonly workplace: Workplace }) {
  const { listening } = workplace;
  const state = listening.state.value;
  // Over the voice in a headset readings are taken all the same.
  const sounding = listening.speaking.value && !workplace.settings.value.headset;
  const light = lightOf(
    state,
    sounding ? (workplace.clips.playing.value === null ? "speaking" : "playing") : null,
  );
  const on = isOn(state.kind);
  const loaded =
    state.kind === "loading" ? loadedOf(state.fraction, workplace.installed.ahead.states.value.ear) : null;
  const loudness = state.kind === "listening" ? Math.min(1, Math.sqrt(state.loudness)) : 0;
  return (
    <div class={`ear-area${listening.speaking.value ? " speaking" : ""}`}>
      <button
        type="button"
        class={`ear ear-${light}`}
        aria-pressed={on}
        onClick={() => void workplace.switchEar()}
      >
        <svg class="ear-light" viewBox="-50 -50 100 100" aria-hidden="true">
          <circle r="46" class="ear-rim" />
          <EarShape light={light} loudness={loudness} />
        </svg>
        <span class="ear-words">
          <span class="ear-state">{stateWords(state, light, loaded)}</span>
          <span class="ear-hint">{hintOf(state, on)}</span>
        </span>
      </button>
      {loaded !== null && (
        <progress class="ear-progress" max={1} value={loaded} aria-label="Loading the recogniser" />
      )}
      {state.kind === "problem" && (
        <p class="ear-trouble" role="alert">
          {state.message}
        </p>
      )}
      {!globalThis.isSecureContext && (
        <p class="ear-trouble">
          The microphone works only on https or localhost addresses; here you can type instead.
        </p>
      )}
      {state.kind === "listening" && listening.ignored.value > 0 && (
        <p class="ear-ignored">Heard and left out, not for the log: {listening.ignored.value}</p>
      )}
    </div>
  );
}

function lightOf(state: EarState, sounding: "speaking" | "playing" | null): Light {
  return state.kind === "listening" && sounding ? sounding : state.kind;
}

/** Inside the rim: nothing, a broken ring, a disc that grows with the sound, three bars, a cross. */
export function EarShape({ light, loudness }: { readonly light: Light; readonly loudness: number }) {
  switch (light) {
    case "off":
      return null;
    case "resting":
      return <circle r="10" class="ear-disc" />;
    case "loading":
      return <circle r="27" class="ear-broken" />;
    case "listening":
      return <circle r={26 + 12 * loudness} class="ear-disc" />;
    case "speaking":
    case "playing":
      return <path d="M-20 -10V10M0 -24V24M20 -10V10" class="ear-stroke" />;
    case "problem":
      return <path d="M-19 -19L19 19M19 -19L-19 19" class="ear-stroke" />;
  }
}

/** How much of the recogniser is loaded; all, while what is kept on the device starts. */
function loadedOf(fraction: number, files: AheadState): number {
  if (files.kind === "fetching") return files.fraction;
  return files.kind === "kept" ? 1 : fraction;
}

function hintOf({ kind }: EarState, on: boolean): string {
  if (kind === "resting") return "say “mark” to wake it";
  return on ? "tap to stop" : "tap anywhere here to listen";
}

function stateWords(state: EarState, light: Light, loaded: number | null): string {
  switch (state.kind) {
    case "off":
      return "Off";
    case "problem":
      return "Not listening";
    case "resting":
      return "Resting";
    case "loading":
      return loaded === 1 ? "Starting" : `Loading ${Math.floor((loaded ?? 0) * 100)} %`;
    case "listening":
      return light === "speaking" ? "Speaking" : light === "playing" ? "Playing" : "Listening";
  }
}
