import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { OwnVoice } from "../../own-voice/create.ts";
import type { Workplace } from "../../workplace.ts";

/** The people's voices, loaded and listed with the first that shows them. */
export function useOwnVoice(workplace: Workplace): {
  readonly own: OwnVoice | null;
  readonly failed: boolean;
} {
  const loaded = useSignal<{ own: OwnVoice | null; failed: boolean }>({ own: null, failed: false });
  useEffect(() => {
    workplace.ownVoice().then(
      async (own) => {
        await own.people.load();
        loaded.value = { own, failed: false };
      },
      () => {
        loaded.value = { own: null, failed: true };
      },
    );
  }, [workplace]);
  return loaded.value;
}
