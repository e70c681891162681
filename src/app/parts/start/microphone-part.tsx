import type { EarState } from "../../sound/listening.ts";
import { CHECK_SENTENCE, type MicrophoneCheck } from "../../start/microphone-check.ts";
import type { SoundLevel } from "../../start/sound-level.ts";
import { HeardWords } from "../boiler/heard-words.tsx";
import { EarButton } from "./ear-button.tsx";
import { LevelMeter } from "./level-meter.tsx";

/** The microphone check: a tap opens it, a meter moves, one sentence is heard. */
export function MicrophonePart({ check }: { readonly check: MicrophoneCheck }) {
  const state = check.listening.state.value;
  const on = state.kind === "listening" || state.kind === "loading";
  const heard = check.heard.value;
  return (
    <section class="microphone-check" aria-labelledby="microphone-heading">
      <h2 id="microphone-heading">Microphone</h2>
      <p>
        Hold the device as you will at the boiler, tap, and say: <b>“{CHECK_SENTENCE}”</b>. Nothing is kept of
        it.
      </p>
      <EarButton
        listening={check.listening}
        idle={check.result.value === "none" ? "Check the microphone" : "Check it again"}
        onPress={() => void (on ? check.end() : check.begin())}
      />
      {state.kind === "loading" && (
        <progress aria-label="Loading the recogniser" max={1} value={state.fraction} />
      )}
      {state.kind === "listening" && (
        <>
          <LevelMeter loudness={state.loudness} />
          <p class="level-words" role="status">
            {levelWords(check.level.value, check.silent.value)}
          </p>
        </>
      )}
      {heard && (
        <div class="check-heard" role="status">
          <p>
            Heard <HeardWords heard={heard} />
          </p>
          <p>
            {heard.understood.length > 0
              ? `Understood: ${heard.understood.join("; ")}`
              : "Nothing for the log in it."}
          </p>
        </div>
      )}
      <p class="check-result" role="status">
        {resultWords(check, state)}
      </p>
    </section>
  );
}

function levelWords(level: SoundLevel | null, silent: boolean): string {
  switch (level) {
    case "quiet":
      return "Too quiet: come nearer, or speak up.";
    case "good":
      return "Good.";
    case "loud":
      return "Too loud: go a little further away.";
    case null:
      return silent
        ? "Nobody is heard. Is this the right microphone, and is nothing over it? The device's settings say which one is used."
        : `Say “${CHECK_SENTENCE}”.`;
  }
}

function resultWords({ result }: MicrophoneCheck, state: EarState): string {
  switch (result.value) {
    case "works":
      return "That works.";
    case "other":
      return "That was something else. Say it once more, a little slower; at the boiler “scratch that” takes such a thing back.";
    case "no-words":
      return state.kind === "listening"
        ? "There was speech, but none of the words. Say just the sentence, near the microphone, without other voices."
        : "";
    case "none":
      return state.kind === "problem" ? "All can be typed as well: you can go on without a microphone." : "";
  }
}
