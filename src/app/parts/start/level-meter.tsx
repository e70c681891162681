import { onMeter, TOO_LOUD, TOO_QUIET } from "../../start/sound-level.ts";

const LENGTH = 400;
const at = (loudness: number) => LENGTH * onMeter(loudness);

/** How loud it is now, on a scale with the good stretch marked. What it says is said in words below it. */
export function LevelMeter({ loudness }: { readonly loudness: number }) {
  const quiet = `${100 * onMeter(TOO_QUIET)}%`;
  return (
    <div class="level-meter" aria-hidden="true">
      <svg viewBox={`0 0 ${LENGTH} 44`} aria-hidden="true">
        <rect x="1" y="8" width={LENGTH - 2} height="28" class="level-frame" />
        <rect x="1" y="8" width={Math.max(0, at(loudness) - 2)} height="28" class="level-bar" />
        <path d={`M${at(TOO_QUIET)} 1V43M${at(TOO_LOUD) - 2} 1V43`} class="level-mark" />
      </svg>
      <div class="level-names" style={{ gridTemplateColumns: `${quiet} minmax(0, 1fr)` }}>
        <span>too quiet</span>
        <span>good</span>
      </div>
    </div>
  );
}
