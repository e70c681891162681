interface ChoiceProps<T extends string> {
  readonly legend: string;
  readonly name: string;
  readonly options: readonly (readonly [value: T, label: string])[];
  readonly value: T;
  readonly onChange: (value: T) => void;
}

/** One of a few, all of them in sight. */
export function Choice<T extends string>({ legend, name, options, value, onChange }: ChoiceProps<T>) {
  return (
    <fieldset class="field">
      <legend>{legend}</legend>
      <div class="options">
        {options.map(([option, label]) => (
          <label key={option} class="option">
            <input
              type="radio"
              name={name}
              value={option}
              checked={option === value}
              onChange={() => onChange(option)}
            />
            <span>{label}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
