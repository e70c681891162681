import type { PlatformScope } from "../device/ears/platform-api.ts";

declare global {
  /** Where a browser has a recogniser of its own, it is here. */
  interface Window extends PlatformScope {}
}
