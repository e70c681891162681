import { useSignal } from "@preact/signals";
import { shownText } from "../../../measure/text.ts";
import type { StartDesk } from "../../start/desk.ts";
import { EarButton } from "./ear-button.tsx";

/** A visit started in one sentence, typed or said; what was understood of it, and what is still to be said. */
export function StartSentence({ desk }: { readonly desk: StartDesk }) {
  const text = useSignal("");
  const said = desk.said.value;
  const send = (event: SubmitEvent) => {
    event.preventDefault();
    const sentence = text.value.trim();
    if (sentence === "") return;
    text.value = "";
    void desk.type(sentence);
  };
  return (
    <div class="start-sentence">
      <form onSubmit={send}>
        <label for="sentence">In one sentence</label>
        <input
          id="sentence"
          type="text"
          autocomplete="off"
          autocapitalize="off"
          enterkeyhint="go"
          placeholder="sheet two, natural gas, go"
          value={text.value}
          onInput={(event) => {
            text.value = event.currentTarget.value;
          }}
        />
        <button type="submit">Enter</button>
        <EarButton listening={desk.listening} idle="Or say it" onPress={() => void desk.switchEar()} />
      </form>
      <p class="start-said" role="status">
        {said && (
          <>
            “{said.text}”: <b>{shownText(said.answer)}</b>
          </>
        )}
      </p>
    </div>
  );
}
