import { secondsOf } from "../../own-voice/plan.ts";
import { askNow, type Reading } from "../../own-voice/reading.ts";
import type { TeachingState } from "../../own-voice/teaching.ts";
import { leftWords, troubleWords } from "../../own-voice/wording.ts";
import { Plate } from "../plate.tsx";

interface ReadAloudProps {
  readonly state: Extract<TeachingState, { kind: "starting" | "reading" | "training" }>;
  readonly onCancel: () => void;
}

/** The word to say, as large as it goes, what was wrong with the last take, and how far it is. */
export function ReadAloud({ state, onCancel }: ReadAloudProps) {
  return (
    <>
      <Plate label="What to say" class="own-voice-plate">
        {state.kind === "reading" ? <Asked reading={state.reading} /> : <Busy state={state} />}
      </Plate>
      <button type="button" class="own-voice-cancel" onClick={onCancel}>
        Cancel
      </button>
    </>
  );
}

function Asked({ reading }: { readonly reading: Reading }) {
  const { asks, at, phase, plan, troubles } = reading;
  const asked = askNow(reading);
  const trouble = troubles.at(-1);
  const left = leftWords(secondsOf(asks.slice(at), plan.noiseSeconds));
  return (
    <>
      <p class={`own-voice-lead${phase.kind === "telling" ? "" : " own-voice-now"}`} aria-hidden="true">
        {phase.kind === "telling"
          ? "Wait for the tone"
          : asked.kind === "noise"
            ? "Listening to the room"
            : "Now"}
      </p>
      <p
        class={asked.kind === "word" ? "own-voice-word" : "own-voice-sentence"}
        data-asked={at}
        data-phase={phase.kind}
      >
        {asked.kind === "noise" ? "Say nothing" : asked.kind === "word" ? asked.word : asked.text}
      </p>
      <p class="own-voice-trouble" role="status">
        {trouble ? troubleWords(trouble, asked) : ""}
      </p>
      <progress max={asks.length} value={at} aria-label="How far the reading is" />
      <p>
        {at + 1} of {asks.length}. {left}.
      </p>
    </>
  );
}

function Busy({ state }: { readonly state: Exclude<ReadAloudProps["state"], { kind: "reading" }> }) {
  if (state.kind === "starting") return <p role="status">Getting the microphone ready …</p>;
  return (
    <>
      <p class="own-voice-sentence" role="status">
        Learning your voice
      </p>
      <progress max={1} value={state.fraction} aria-label="How far the learning is" />
      <p>{Math.floor(100 * state.fraction)} %. Nothing has to be said any more.</p>
    </>
  );
}
