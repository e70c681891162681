/** The name of the only Trusted Types policy that the page's security policy allows. */
export const OWN_SCRIPTS = "burnerside-own-scripts";

/** What is used of Trusted Types (W3C); TypeScript's DOM has them not yet. */
interface TrustedTypes {
  createPolicy(name: string, rules: { createScriptURL: (address: string) => string }): TrustedPolicy;
}
interface TrustedPolicy {
  /** An object that stands for the address, which the browser takes in its place. */
  createScriptURL(address: string): URL;
}

const rules = { createScriptURL: ownAddress };

/** Where the browser has no Trusted Types the address is looked at all the same. */
const policy: TrustedPolicy = trustedTypes()?.createPolicy(OWN_SCRIPTS, rules) ?? {
  createScriptURL: (address) => new URL(ownAddress(address)),
};

/**
 * The address of a script of the app's own, for what starts a script by address: a worker, the service worker. Anything that is not a
 * file of this origin throws TypeError: text in memory (`blob:`, `data:`) and other servers' files are nobody's own.
 * @param address relative to the file that runs
 */
export function ownScript(address: string): URL {
  return policy.createScriptURL(address);
}

function ownAddress(address: string): string {
  const here = new URL(globalThis.location.href);
  const url = new URL(address, here);
  // The origin of a blob is that of the page that made it.
  if (url.origin !== here.origin || url.protocol !== here.protocol)
    throw new TypeError(`Expected a script of ${here.origin}, found ${url.protocol} ${url.origin}.`);
  return url.href;
}

function trustedTypes(): TrustedTypes | undefined {
  return (globalThis as { trustedTypes?: TrustedTypes }).trustedTypes;
}
