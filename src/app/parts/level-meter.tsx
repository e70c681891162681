import { onMeter, TOO_LOUD, TOO_QUIET } from "../sound-level.ts";

const LENGTH = 1000;
const at = (loudness: number) => LENGTH * onMeter(loudness);

/** How loud it is now, on a scale with the good stretch marked. What it says is said in words beside it. */
export function LevelMeter({ loudness }: { readonly loudness: number }) {
  const [from, to] = [at(TOO_QUIET), at(TOO_LOUD)];
  return (
    <svg class="level-meter" viewBox={`0 0 ${LENGTH} 110`} aria-hidden="true">
      <rect x="2" y="22" width={LENGTH - 4} height="46" class="level-frame" />
      <rect x="2" y="22" width={Math.max(0, at(loudness) - 4)} height="46" class="level-bar" />
      <path d={`M${from} 8V82M${to - 6} 8V82`} class="level-mark" />
      <text x={from / 2} y="106">
        too quiet
      </text>
      <text x={(from + to) / 2} y="106">
        good
      </text>
    </svg>
  );
}
