/** How many things the device can do at once, as far as the browser tells. */
export function coreCount(): number {
  return navigator.hardwareConcurrency || 1;
}
