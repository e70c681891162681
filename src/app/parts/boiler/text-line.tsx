import { useSignal } from "@preact/signals";

/** A line to type the same phrases as can be said; Enter sends. */
export function TextLine({ onPhrase }: { readonly onPhrase: (text: string) => void }) {
  const text = useSignal("");
  const send = (event: SubmitEvent) => {
    event.preventDefault();
    const phrase = text.value.trim();
    if (phrase === "") return;
    text.value = "";
    onPhrase(phrase);
  };
  return (
    <form class="text-line" onSubmit={send}>
      <label for="phrase">Or type</label>
      <input
        id="phrase"
        name="phrase"
        type="text"
        autocomplete="off"
        autocapitalize="off"
        enterkeyhint="send"
        placeholder="CO2 9.2, CO 40"
        value={text.value}
        onInput={(event) => {
          text.value = event.currentTarget.value;
        }}
      />
      <button type="submit">Enter</button>
    </form>
  );
}
