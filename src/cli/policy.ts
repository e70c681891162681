import { OWN_SCRIPTS } from "../device/own-script.ts";

/**
 * What the page may do, as a Content Security Policy (W3C, level 3): nothing but files of the app's own origin; WebAssembly may
 * be compiled, text may not become script. The build puts it into the page, for servers that send no headers.
 */
export const PAGE_POLICY = policy({
  "default-src": "'none'",
  "script-src": "'self' 'wasm-unsafe-eval'",
  "style-src": "'self'",
  "img-src": "'self'",
  "connect-src": "'self'",
  // Kept sound is played from memory.
  "media-src": "blob:",
  "worker-src": "'self'",
  "manifest-src": "'self'",
  "base-uri": "'none'",
  "form-action": "'none'",
  // No text becomes a script's address but by the one policy of src/device/own-script.ts, and none becomes HTML at all.
  "require-trusted-types-for": "'script'",
  "trusted-types": OWN_SCRIPTS,
});

/** What an app of this kind has no use for, however it was tricked. */
const NEVER = [
  "accelerometer",
  "camera",
  "display-capture",
  "encrypted-media",
  "geolocation",
  "gyroscope",
  "hid",
  "idle-detection",
  "local-fonts",
  "magnetometer",
  "midi",
  "payment",
  "picture-in-picture",
  "publickey-credentials-get",
  "serial",
  "usb",
  "window-management",
  "xr-spatial-tracking",
];

/** What it uses itself, and no page inside it may. */
const OWN = ["autoplay", "microphone", "screen-wake-lock"];

/**
 * The headers of every answer of the app's server. Some of the policy counts in a header only, and a worker has no other than
 * that of its own file's headers. No Cross-Origin-Embedder-Policy: with it the recogniser's library would start threads of its
 * own, from text.
 */
export const HEADERS: Readonly<Record<string, string>> = {
  "Content-Security-Policy": `${PAGE_POLICY}; frame-ancestors 'none'`,
  "Cross-Origin-Opener-Policy": "same-origin",
  "Cross-Origin-Resource-Policy": "same-origin",
  "Permissions-Policy": [...NEVER.map((name) => `${name}=()`), ...OWN.map((name) => `${name}=(self)`)].join(
    ", ",
  ),
  "Referrer-Policy": "no-referrer",
  "X-Content-Type-Options": "nosniff",
};

function policy(directives: Readonly<Record<string, string>>): string {
  return Object.entries(directives)
    .map(([name, value]) => `${name} ${value}`)
    .join("; ");
}
