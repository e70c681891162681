/** The button that takes note of all warnings so far, as high as the ear beside it. */
export function Acknowledge({ onAcknowledge }: { readonly onAcknowledge: () => void }) {
  return (
    <button type="button" class="acknowledge" onClick={onAcknowledge}>
      Understood
    </button>
  );
}
