import type { ComponentChildren } from "preact";
import { harmless } from "../../../measure/harmless.ts";

interface BeforeReadingProps {
  readonly name: string;
  /** One of the people of this device. */
  readonly isKnown: boolean;
  /** Somebody else in the list has this name. */
  readonly isTaken: boolean;
  readonly onName: (name: string) => void;
  readonly onBegin: () => void;
  readonly children: ComponentChildren;
}

/** What a person is told before the reading, and whose voice it is. */
export function BeforeReading({ name, isKnown, isTaken, onName, onBegin, children }: BeforeReadingProps) {
  const send = (event: SubmitEvent) => {
    event.preventDefault();
    if (name.trim() !== "") onBegin();
    else document.getElementById("voice-name")?.focus();
  };
  return (
    <form class="own-voice-before" onSubmit={send}>
      <ul class="own-voice-steps">
        <li>It takes about three minutes, and no touch once it has started.</li>
        <li>Put the device where you can read it, as far away as at the boiler. It should be quiet.</li>
        <li>
          First say nothing for five seconds. Then say the word that is shown, once, after the tone, as you
          always say it. Each word comes four times.
        </li>
        <li>At the end read a few sentences aloud.</li>
        <li>
          To end it before, tap Cancel, or say “stop” twice while another word is shown. Then nothing is kept.
        </li>
      </ul>
      <p>
        The recordings are in memory only while it learns, and are not kept. What stays is what was learned,
        on this device: no backup and no exported visit has it.
      </p>
      {isKnown ? (
        <p>
          The voice of <b>{harmless(name)}</b> is taught anew: the one that is here stays in use until the new
          one has been learned.
        </p>
      ) : (
        <label class="field">
          <span>Your name, as it is to stand in the list</span>
          <input
            type="text"
            id="voice-name"
            name="voice-name"
            autocomplete="off"
            maxLength={60}
            value={name}
            onInput={(event) => onName(event.currentTarget.value)}
          />
        </label>
      )}
      <div class="row-buttons">
        <button type="submit" class="main-button" aria-disabled={name.trim() === ""}>
          Start
        </button>
        {children}
      </div>
      <p role="status">
        {name.trim() === ""
          ? "First give a name."
          : isTaken
            ? "This name is in the list already: give another one, or choose “Teach again” beside it in the settings."
            : ""}
      </p>
    </form>
  );
}
