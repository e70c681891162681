/** Puts the focus on the heading of the screen, for those who see nothing of it. */
export function focusHeading(): void {
  const heading = document.querySelector("h1");
  heading?.setAttribute("tabindex", "-1");
  heading?.focus({ preventScroll: true });
}
