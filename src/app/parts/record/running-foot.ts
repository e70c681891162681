import { useLayoutEffect } from "preact/hooks";

/** What stands at the foot of every printed page beside its number, while a record is shown. One line, nothing that steers. */
export function useRunningFoot(text: string): void {
  useLayoutEffect(() => {
    const { style } = document.documentElement;
    style.setProperty("--record-name", `"${text.replace(/["\\]/g, "\\$&")}"`);
    return () => {
      style.removeProperty("--record-name");
    };
  }, [text]);
}
