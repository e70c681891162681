import type { Installed } from "../../installed/installed.ts";

/**
 * That the browser has not promised to keep what is stored, said before anything is. Whether a window is a private one no page
 * can know for sure: so it is said of every window that has no promise.
 */
export function KeptHere({ installed }: { readonly installed: Installed }) {
  if (!installed.keptAsked.value || installed.kept.value === true) return null;
  return (
    <p class="strip kept-here">
      {installed.kept.value === false
        ? "This browser has not promised to keep what is stored here: it may clear it when space runs short."
        : "This browser does not say whether it keeps what is stored here."}{" "}
      In a private window all of it is gone when the window closes. Export or back up what you need.
    </p>
  );
}
