import type { ComponentChildren } from "preact";

interface PlateProps {
  readonly label: string;
  readonly class?: string;
  readonly children: ComponentChildren;
}

/** An engraved plate: a double rule and a screw head in each upper corner. */
export function Plate({ label, class: extra, children }: PlateProps) {
  return (
    <section class={`plate ${extra ?? ""}`} aria-label={label}>
      <ScrewHead class="screw-left" />
      <ScrewHead class="screw-right" />
      {children}
    </section>
  );
}

function ScrewHead({ class: place }: { readonly class: string }) {
  return (
    <svg class={`screw ${place}`} viewBox="0 0 20 20" aria-hidden="true">
      <circle cx="10" cy="10" r="8.5" />
      <path d="M4.5 13.5 15.5 6.5" />
    </svg>
  );
}
