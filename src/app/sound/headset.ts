import { effect } from "@preact/signals";
import type { MediaButton } from "../../device/media-button.ts";
import type { Workplace } from "../workplace.ts";
import { isOn } from "./listening.ts";

/** While a visit runs, the headset's button starts and stops listening. */
export function hangOnButton(workplace: Workplace, create: (press: () => void) => MediaButton): void {
  const button = create(() => void workplace.switchEar());
  effect(() => (workplace.session.value ? button.take() : button.release()));
  effect(() => {
    const on = isOn(workplace.listening.state.value.kind);
    if (workplace.session.value) button.show(on);
  });
}
