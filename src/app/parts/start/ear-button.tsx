import type { EarState, Listening } from "../../sound/listening.ts";
import { EarShape, type Light } from "../boiler/ear-zone.tsx";

interface EarButtonProps {
  readonly listening: Listening;
  /** What a tap does while it is off, in words. */
  readonly idle: string;
  readonly onPress: () => void;
}

/** A listening button off the boiler: starts and stops an ear, and says how it is and what stopped it. */
export function EarButton({ listening, idle, onPress }: EarButtonProps) {
  const state = listening.state.value;
  const on = state.kind === "listening" || state.kind === "loading";
  const light: Light = state.kind === "listening" && listening.speaking.value ? "speaking" : state.kind;
  const loudness = state.kind === "listening" ? Math.min(1, Math.sqrt(state.loudness)) : 0;
  return (
    <>
      <button type="button" class={`ear-button ear-${light}`} aria-pressed={on} onClick={onPress}>
        <svg viewBox="-50 -50 100 100" aria-hidden="true">
          <circle r="46" class="ear-rim" />
          <EarShape light={light} loudness={loudness} />
        </svg>
        <span>{words(state, idle)}</span>
      </button>
      {state.kind === "problem" && (
        <p class="ear-trouble" role="alert">
          {state.message}
        </p>
      )}
    </>
  );
}

function words(state: EarState, idle: string): string {
  switch (state.kind) {
    case "off":
    case "problem":
    case "resting":
      return idle;
    case "loading":
      return `Loading ${Math.round(state.fraction * 100)} %`;
    case "listening":
      return "Listening: tap to stop";
  }
}
