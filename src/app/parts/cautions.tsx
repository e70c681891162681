/** The cautions, wherever they are needed in full. */
export function Cautions() {
  return (
    <ul class="cautions-list">
      <li>For licensed heating technicians only.</li>
      <li>The maker's instructions and local codes prevail over anything said or shown here.</li>
      <li>
        Burnerside advises; it never decides. You read the instruments and you are answerable for the work.
      </li>
      <li>
        Carbon monoxide kills. If the room CO is high, stop, ventilate, get everybody out and call for help.
      </li>
      <li>Check each reading that was heard against the instrument before you act on it.</li>
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
