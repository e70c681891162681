import type { Verdict } from "../../judge/judgement.ts";

const PATHS: Readonly<Record<Verdict["verdict"], string>> = {
  pass: "M4 13 L10 19 L20 5",
  fail: "M5 5 L19 19 M19 5 L5 19",
  wait: "M6 3 H18 L6 21 H18 Z",
  "no-limit": "M4 12 H20",
};

/** The mark of a verdict, always beside its word. */
export function Mark({ verdict }: { readonly verdict: Verdict["verdict"] }) {
  return (
    <svg class={`mark mark-${verdict}`} viewBox="0 0 24 24" aria-hidden="true">
      <path d={PATHS[verdict]} />
    </svg>
  );
}
