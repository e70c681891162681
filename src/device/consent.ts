/**
 * A person's consent to the next version, kept where both the page and the service worker can reach it. A version that
 * finds none is not even fetched.
 */
const CACHE = "burnerside-consent";
const KEY = "./next-version";

export async function giveConsent(): Promise<void> {
  await (await caches.open(CACHE)).put(KEY, new Response());
}

export async function hasConsent(): Promise<boolean> {
  return (await caches.match(KEY, { cacheName: CACHE })) !== undefined;
}

/** Used up, or withdrawn. */
export async function dropConsent(): Promise<void> {
  await caches.delete(CACHE);
}
