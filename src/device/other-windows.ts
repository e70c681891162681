/** Word to the app's other windows in this browser, that something was begun here. */
export interface OtherWindows {
  tell(): void;
  /** Told whenever another window says so. */
  onTold(told: () => void): void;
}

export function createOtherWindows(name: string): OtherWindows {
  const channel = new BroadcastChannel(name);
  return {
    tell: () => channel.postMessage("begun"),
    onTold: (told) => channel.addEventListener("message", told),
  };
}
