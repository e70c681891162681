import { effect } from "@preact/signals";
import type { MediaButton } from "../../device/media-button.ts";
import type { Workplace } from "../workplace.ts";

/** While a visit runs, the headset's button starts and stops listening. */
export function hangOnButton(workplace: Workplace, create: (press: () => void) => MediaButton): void {
  const button = create(() => void workplace.switchEar());
  effect(() => (workplace.session.value ? button.take() : button.release()));
  effect(() => {
    const { kind } = workplace.listening.state.value;
    const on = kind === "listening" || kind === "loading";
    if (workplace.session.value) button.show(on);
  });
}
