import { useSignal } from "@preact/signals";
import type { Workplace } from "../../workplace.ts";

/** The key that signs finished visits, shown when it is asked for: it is made then, where there is none yet. */
export function DeviceKeyPart({ workplace }: { readonly workplace: Workplace }) {
  const told = useSignal("");
  const show = async () => {
    try {
      const { fingerprint } = await import("../../../record/integrity/fingerprint.ts");
      const thumbprint = await workplace.visits.thumbprint();
      told.value =
        thumbprint === null
          ? "There is none: this browser gives no key to this page, and visits stay unsigned."
          : `Key of this device: ${fingerprint(thumbprint)}`;
    } catch {
      told.value = "It could not be loaded. Try again.";
    }
  };
  return (
    <>
      <p>
        Finished visits are signed with a key that does not leave this device. A record names the key: compare
        it with this one, by telephone say. Deleting the browser's data deletes the key; what it signed stays
        signed.
      </p>
      <div class="ahead">
        <p role="status">{told.value}</p>
        <button type="button" class="plain" onClick={() => void show()}>
          Show this device's key
        </button>
      </div>
    </>
  );
}
