import { CAUTIONS } from "../../record/cautions.ts";

/** The cautions, wherever they are needed in full. */
export function Cautions() {
  return (
    <ul class="cautions-list">
      {CAUTIONS.map((caution) => (
        <li key={caution}>{caution}</li>
      ))}
    </ul>
  );
}

/** The cautions within reach while working: one line, and all of them behind it. */
export function CautionsInReach() {
  return (
    <details class="cautions">
      <summary>Cautions: licensed technicians only; the maker's instructions and local codes prevail</summary>
      <Cautions />
    </details>
  );
}
