import { useId } from "preact/hooks";

interface PassphraseFieldProps {
  readonly label: string;
  readonly value: string;
  readonly shown: boolean;
  /** For the browser's own keeper of passwords. */
  readonly use: "new-password" | "current-password";
  readonly onInput: (value: string) => void;
  /** Id of the sentence that says what is wrong with it; left out where nothing is. */
  readonly problem?: string;
}

/** A passphrase as it is typed, seen or not; nothing corrects it or makes its first letter a capital. */
export function PassphraseField({ label, value, shown, use, onInput, problem }: PassphraseFieldProps) {
  const id = useId();
  const given = {
    id,
    autocomplete: use,
    autocapitalize: "off",
    autocorrect: "off",
    spellcheck: false,
    value,
    ...(problem === undefined ? {} : { "aria-invalid": true, "aria-describedby": problem }),
    onInput: (event: { readonly currentTarget: HTMLInputElement }) => onInput(event.currentTarget.value),
  } as const;
  return (
    <div class="field">
      <label for={id}>{label}</label>
      {shown ? <input type="text" {...given} /> : <input type="password" {...given} />}
    </div>
  );
}

interface ShownProps {
  readonly shown: boolean;
  readonly onChange: (shown: boolean) => void;
}

/** Whether what is typed is seen. */
export function ShowPassphrase({ shown, onChange }: ShownProps) {
  return (
    <label class="option">
      <input type="checkbox" checked={shown} onChange={() => onChange(!shown)} />
      <span>Show what I type</span>
    </label>
  );
}
