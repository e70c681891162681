import { useSignal } from "@preact/signals";
import { laterPart } from "../../later.tsx";
import type { Workplace } from "../../workplace.ts";

interface SettingsProps {
  readonly workplace: Workplace;
}

const Inside = laterPart<SettingsProps>(
  async () => (await import("./settings-inside.tsx")).SettingsInside,
  (_, failed) => (
    <p role="status">{failed ? "The settings could not be loaded. Open them again." : "Loading …"}</p>
  ),
);

/** The settings, loaded when they are first opened: no visit needs them. */
export function SettingsArea({ workplace }: SettingsProps) {
  const isOpen = useSignal(false);
  return (
    <details
      class="strip settings"
      onToggle={(event) => {
        isOpen.value = event.currentTarget.open;
      }}
    >
      <summary>Settings</summary>
      {isOpen.value && <Inside workplace={workplace} />}
    </details>
  );
}
