/** Tells the width of an element, CSS px, now and whenever it changes; gives back what ends that. */
export function onWidth(element: Element, told: (pixels: number) => void): () => void {
  const observer = new ResizeObserver(([entry]) => {
    const pixels = Math.round(entry?.contentRect.width ?? 0);
    if (pixels > 0) told(pixels);
  });
  observer.observe(element);
  return () => observer.disconnect();
}
