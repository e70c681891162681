import type { Workplace } from "../workplace.ts";

/** The limits sheets. */
export function Sheets({ workplace }: { readonly workplace: Workplace }) {
  return (
    <main class="page">
      <h1>Sheets</h1>
      <button type="button" onClick={() => void workplace.goTo({ kind: "start" })}>
        To the start
      </button>
    </main>
  );
}
