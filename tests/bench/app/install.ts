import type { Page } from "playwright-core";

interface WebManifest {
  readonly name: string;
  readonly display: string;
  readonly start_url: string;
  readonly icons: readonly { readonly src: string }[];
}

/** What a browser wants before it offers to install the app (web.dev, "What does it take to be installable?"; from memory). */
export async function installability(page: Page): Promise<string[]> {
  const cdp = await page.context().newCDPSession(page);
  const { errors, data } = await cdp.send("Page.getAppManifest");
  const { installabilityErrors } = await cdp.send("Page.getInstallabilityErrors");
  const manifest: WebManifest = JSON.parse(data ?? "");
  const pictures = await page.evaluate(
    (sources) =>
      Promise.all(
        sources.map(async (src) => {
          const picture = new Image();
          picture.src = src;
          await picture.decode();
          return `${src} ${picture.naturalWidth}x${picture.naturalHeight}`;
        }),
      ),
    manifest.icons.map(({ src }) => src),
  );
  const worker = await page.evaluate(() => navigator.serviceWorker.controller?.scriptURL ?? "none");
  const faults = [
    ...errors.map(({ message }) => message),
    ...installabilityErrors.map(({ errorId }) => errorId),
  ];
  return [
    `manifest: ${manifest.name}, ${manifest.display}, from ${manifest.start_url}; icons ${pictures.join(", ")}`,
    `service worker: ${new URL(worker).pathname}; secure context: ${await page.evaluate(() => isSecureContext)}`,
    `can be installed: ${faults.length === 0 ? "yes" : `NO (${faults.join(", ")})`}`,
  ];
}
