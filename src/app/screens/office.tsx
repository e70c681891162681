import type { Workplace } from "../workplace.ts";

/** The visits of many, taken in from their bundles. */
export function Office(_: { readonly workplace: Workplace }) {
  return (
    <main class="page office">
      <h1>Office</h1>
    </main>
  );
}
