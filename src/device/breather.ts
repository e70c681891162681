/** Longest that work goes on before what the person does is looked at: an eighth of a task that is felt, for slow devices. */
const WORK_MS = 12;

/** Gives a pause to ask for between small pieces of long work: it lets the page go on where it was held up, else it is none. */
export function createBreather(): () => Promise<void> {
  let since = performance.now();
  return async () => {
    if (performance.now() - since < WORK_MS) return;
    await new Promise<void>((resolve) => setTimeout(resolve, 0));
    since = performance.now();
  };
}
