import type { Workplace } from "../workplace.ts";

/** One limits sheet. */
export function SheetEditor({ workplace }: { readonly workplace: Workplace; readonly id: string | null }) {
  return (
    <main class="page">
      <h1>SheetEditor</h1>
      <button type="button" onClick={() => void workplace.goTo({ kind: "start" })}>
        To the start
      </button>
    </main>
  );
}
