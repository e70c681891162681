import type { TargetedInputEvent } from "preact";
import type { SheetForm } from "../../sheets/form.ts";
import { described, fieldId, Notes } from "./notes.tsx";

interface TextFieldProps {
  readonly form: SheetForm;
  readonly path: string;
  readonly label: string;
  /** Said under the label. */
  readonly hint?: string;
  readonly value: string;
  readonly onInput: (text: string) => void;
  /** Brings up the keys for numbers. */
  readonly isNumber?: boolean;
  /** Behind the input: "%", "s". */
  readonly unit?: string;
  readonly placeholder?: string;
  readonly disabled?: boolean;
  readonly type?: "text" | "date";
}

/** One text of the form with its label, and what is wrong with it. */
export function TextField(props: TextFieldProps) {
  const {
    form,
    path,
    label,
    hint,
    value,
    onInput,
    isNumber,
    unit,
    placeholder,
    disabled,
    type = "text",
  } = props;
  const common = {
    id: fieldId(path),
    autocomplete: "off",
    disabled: disabled ?? false,
    placeholder: placeholder ?? "",
    value,
    onInput: (event: TargetedInputEvent<HTMLInputElement>) => onInput(event.currentTarget.value),
    onBlur: () => form.touch(path),
    ...described(form, path),
  } as const;
  return (
    <div class={`field${isNumber ? " number-field" : ""}`}>
      <label for={fieldId(path)}>
        <span>{label}</span>
        {hint !== undefined && <small>{hint}</small>}
      </label>
      <div class="with-unit">
        {type === "date" ? (
          <input type="date" {...common} />
        ) : (
          <input type="text" inputMode={isNumber ? "decimal" : "text"} {...common} />
        )}
        {unit !== undefined && <span>{unit}</span>}
      </div>
      <Notes form={form} path={path} />
    </div>
  );
}
