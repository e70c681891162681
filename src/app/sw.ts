import { cleanupOutdatedCaches, PrecacheController, PrecacheRoute } from "workbox-precaching";
import { NavigationRoute, registerRoute } from "workbox-routing";
import { CacheFirst } from "workbox-strategies";
import { AHEAD_SETS, cacheNameOf } from "../device/ahead-cache.ts";
import { dropConsent, hasConsent } from "../device/consent.ts";

/**
 * The service worker: the page, its scripts and styles are kept with the first load; the recogniser and the voice once
 * they are fetched. A newer version comes only with consent: without it its installation fails before it has fetched
 * anything, so that this one stays, even over a restart in the middle of a visit.
 */
declare const self: ServiceWorkerGlobalScope;

const shell = new PrecacheController();
shell.precache([]);
shell.addToCacheList(self.__WB_MANIFEST);

self.addEventListener("install", (event) => event.waitUntil(install(event)));
self.addEventListener("activate", (event) => event.waitUntil(activate(event)));

async function install(event: ExtendableEvent): Promise<void> {
  if (self.registration.active && !(await hasConsent())) throw new Error("This version waits for consent.");
  await shell.install(event);
  await self.skipWaiting();
}

async function activate(event: ExtendableEvent): Promise<void> {
  await shell.activate(event);
  await dropConsent();
  // The first load's page too: what it fetches from now on is kept.
  await self.clients.claim();
}

cleanupOutdatedCaches();
registerRoute(new PrecacheRoute(shell));
// With whatever query it is opened; screens have addresses behind "#".
registerRoute(
  new NavigationRoute(shell.createHandlerBoundToURL("index.html"), {
    allowlist: [/^[^?]*\/(?:index\.html)?(?:\?|$)/],
  }),
);
// Their names hold a hash of what is in them: what is there is right. The page sweeps out what it does not know, and what
// it fetches ahead (with a query) it keeps itself.
for (const set of AHEAD_SETS) {
  registerRoute(
    ({ url, sameOrigin }) => sameOrigin && url.search === "" && url.pathname.includes(`/assets/${set}/`),
    new CacheFirst({ cacheName: cacheNameOf(set), matchOptions: { ignoreVary: true } }),
  );
}
