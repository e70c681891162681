import { useLayoutEffect } from "preact/hooks";

/** Names the page, so its print and the file of that, while a screen is shown; afterwards it has its own name again. */
export function usePageTitle(title: string): void {
  useLayoutEffect(() => {
    const own = document.title;
    document.title = title;
    return () => {
      document.title = own;
    };
  }, [title]);
}
