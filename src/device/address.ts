/** The part of the page's address behind "#", and the browser's history of it. */
export interface Address {
  read(): string;
  /** Opens another address; the one before is a step back. */
  open(hash: string): void;
  /** Puts another address in place of this one: no step back leads here. */
  replace(hash: string): void;
  /** Tells of each change that somebody else made: the back button, a link, the address line. */
  onChange(told: (hash: string) => void): void;
}

export function createAddress(): Address {
  const { history, location } = globalThis;
  // Without "#" the address of the page itself.
  const url = (hash: string) => (hash === "" ? `${location.pathname}${location.search}` : `#${hash}`);
  return {
    read: () => location.hash.slice(1),
    open: (hash) => history.pushState(null, "", url(hash)),
    replace: (hash) => history.replaceState(null, "", url(hash)),
    onChange: (told) => globalThis.addEventListener("popstate", () => told(location.hash.slice(1))),
  };
}
