/** How far from the screen something still counts as near. */
const MARGIN = "800px 0px";

/** Where an element is now: near the screen or not, and how high it is, px. */
export interface Seen {
  readonly isNear: boolean;
  readonly height: number;
}

const told = new WeakMap<Element, (seen: Seen) => void>();
let observer: IntersectionObserver | null = null;

/** Tells when an element comes near the screen and when it is far again, until the returned function is called. */
export function onNear(element: Element, tell: (seen: Seen) => void): () => void {
  // One for all: a long page watches many.
  observer ??= new IntersectionObserver(
    (changes) => {
      for (const { target, isIntersecting, boundingClientRect } of changes)
        told.get(target)?.({ isNear: isIntersecting, height: boundingClientRect.height });
    },
    { rootMargin: MARGIN },
  );
  const here = observer;
  told.set(element, tell);
  here.observe(element);
  return () => {
    told.delete(element);
    here.unobserve(element);
  };
}

/** Calls before the page is printed, until the returned function is called. */
export function whilePrinted(draw: (isPrinted: boolean) => void): () => void {
  const before = () => draw(true);
  const after = () => draw(false);
  addEventListener("beforeprint", before);
  addEventListener("afterprint", after);
  return () => {
    removeEventListener("beforeprint", before);
    removeEventListener("afterprint", after);
  };
}
