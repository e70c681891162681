import type { EarState } from "../listening.ts";
import type { Workplace } from "../workplace.ts";

/** The huge listening button with its light. */
export function EarZone({ workplace }: { readonly workplace: Workplace }) {
  const { listening } = workplace;
  const state = listening.state.value;
  const on = state.kind === "listening" || state.kind === "loading";
  const loudness = state.kind === "listening" ? Math.min(1, Math.sqrt(state.loudness)) : 0;
  return (
    <div class={`ear-area${listening.speaking.value ? " speaking" : ""}`}>
      <button
        type="button"
        class={`ear ear-${state.kind}`}
        aria-pressed={on}
        onClick={() => void workplace.switchEar()}
      >
        <svg class="ear-light" viewBox="-50 -50 100 100" aria-hidden="true">
          <circle r="46" class="ear-rim" />
          <circle r={26 + 18 * loudness} class="ear-glow" />
        </svg>
        <span class="ear-words">
          <span class="ear-state">{stateWords(state, listening.speaking.value)}</span>
          <span class="ear-hint">{on ? "tap to stop" : "tap anywhere here"}</span>
        </span>
      </button>
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

function stateWords(state: EarState, speaking: boolean): string {
  switch (state.kind) {
    case "off":
      return "Listen";
    case "problem":
      return "Not listening";
    case "loading":
      return `Loading ${Math.round(state.fraction * 100)} %`;
    case "listening":
      return speaking ? "Speaking" : "Listening";
  }
}
