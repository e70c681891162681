import type { Workplace } from "../workplace.ts";

/** A visit reviewed. */
export function Afterwards({ workplace }: { readonly workplace: Workplace; readonly visitId: string }) {
  return (
    <main class="page">
      <h1>Afterwards</h1>
      <button type="button" onClick={() => void workplace.goTo({ kind: "start" })}>
        To the start
      </button>
    </main>
  );
}
