import type { Workplace } from "../../workplace.ts";

interface ClipButtonProps {
  readonly workplace: Workplace;
  /** Under which place in the visit the sound is kept. */
  readonly clip: number;
  readonly said: string;
}

/** Plays what was said, as it sounded; pressed again, it stops. Not while the app speaks: a warning must be understood. */
export function ClipButton({ workplace: { clips, listening }, clip, said }: ClipButtonProps) {
  const playing = clips.playing.value;
  const plays = playing === clip;
  const word = plays ? "Stop" : "Play";
  return (
    <button
      type="button"
      class="play"
      aria-label={`${word} the sound of “${said}”`}
      disabled={listening.speaking.value && playing === null}
      onClick={() => (plays ? clips.stop() : void clips.play(clip))}
    >
      {word}
    </button>
  );
}
