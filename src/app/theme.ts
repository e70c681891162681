import { effect } from "@preact/signals";
import type { Workplace } from "./workplace.ts";

/** Keeps the page in the chosen theme: the style sheets look at `data-theme`. */
export function hangTheme({ settings }: Workplace): void {
  effect(() => {
    document.documentElement.setAttribute("data-theme", settings.value.theme);
  });
}
