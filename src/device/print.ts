/** Opens the browser's own dialog to print the page that is shown. */
export function printPage(): void {
  globalThis.print();
}
