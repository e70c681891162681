/** How far from the screen something still counts as near. */
const MARGIN = "1000px 0px";

/** Tells when an element comes near the screen and when it is far again, until the returned function is called. */
export function onNear(element: Element, tell: (isNear: boolean) => void): () => void {
  const observer = new IntersectionObserver((seen) => tell(seen.at(-1)?.isIntersecting === true), {
    rootMargin: MARGIN,
  });
  observer.observe(element);
  return () => observer.disconnect();
}

/** Calls before the page is printed, until the returned function is called. */
export function whilePrinted(draw: () => void): () => void {
  addEventListener("beforeprint", draw);
  return () => removeEventListener("beforeprint", draw);
}
