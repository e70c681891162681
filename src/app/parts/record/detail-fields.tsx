import { useId } from "preact/hooks";
import { shownDay } from "../../../record/wording.ts";
import type { Instrument } from "../../../visit/details.ts";
import { MOST, type Who } from "../../record/given-details.ts";
import type { Workplace } from "../../workplace.ts";

interface LineFieldProps {
  readonly name: string;
  readonly label: string;
  /** So many letters are kept. */
  readonly most: number;
  readonly value: string;
  readonly onInput?: (text: string) => void;
  /** When it is left with another text. */
  readonly onChange?: (text: string) => void;
  readonly autocomplete?: "off" | "name" | "organization";
  readonly list?: string;
  readonly onFocus?: () => void;
}

/** One line of text with its label. */
export function LineField(props: LineFieldProps) {
  const { name, label, most, value, onInput, onChange, autocomplete = "off", list, onFocus } = props;
  return (
    <label class="field">
      <span>{label}</span>
      <input
        type="text"
        name={name}
        maxLength={most}
        autocomplete={autocomplete}
        value={value}
        list={list}
        onFocus={onFocus}
        onInput={(event) => onInput?.(event.currentTarget.value)}
        onChange={(event) => onChange?.(event.currentTarget.value)}
      />
    </label>
  );
}

interface ApplianceFieldProps {
  readonly workplace: Workplace;
  readonly value: string;
  readonly onInput: (text: string) => void;
}

/** The appliance's number; those of earlier visits are offered. */
export function ApplianceField({ workplace, value, onInput }: ApplianceFieldProps) {
  const list = useId();
  const { summaries, visits } = workplace;
  return (
    <>
      <LineField
        name="appliance"
        label="Appliance (serial or plant number)"
        most={MOST.appliance}
        value={value}
        onInput={onInput}
        list={list}
        // All of them are read only for whoever comes to look for one.
        onFocus={() => void summaries.want(visits.heads.value.map(({ id }) => id))}
      />
      <datalist id={list}>
        {summaries.appliances().map((number) => (
          <option key={number} value={number} />
        ))}
      </datalist>
    </>
  );
}

interface WhoFieldsProps {
  readonly who: Who;
  /** Told of each change, as typed. */
  readonly onInput?: (change: Partial<Who>) => void;
  /** Told when a field is left changed. */
  readonly onChange?: (change: Partial<Who>) => void;
}

/** The technician: name, licence, firm. */
export function WhoFields({ who, onInput, onChange }: WhoFieldsProps) {
  return (
    <>
      <LineField
        name="technician"
        label="Technician"
        most={MOST.technician}
        autocomplete="name"
        value={who.technician}
        onInput={(technician) => onInput?.({ technician })}
        onChange={(technician) => onChange?.({ technician })}
      />
      <LineField
        name="licence"
        label="Licence or registration number"
        most={MOST.licence}
        value={who.licence}
        onInput={(licence) => onInput?.({ licence })}
        onChange={(licence) => onChange?.({ licence })}
      />
      <LineField
        name="firm"
        label="Firm"
        most={MOST.firm}
        autocomplete="organization"
        value={who.firm}
        onInput={(firm) => onInput?.({ firm })}
        onChange={(firm) => onChange?.({ firm })}
      />
    </>
  );
}

interface InstrumentFieldsProps {
  readonly instrument: Instrument | null;
  /** Day on which it measured, or today, YYYY-MM-DD: no calibration before it is of a later one. */
  readonly day: string;
  /** Told of each change, as typed. */
  readonly onInput?: (instrument: Instrument) => void;
  /** Told when a field is left changed. */
  readonly onChange?: (instrument: Instrument) => void;
}

const NO_INSTRUMENT: Instrument = { name: "", serial: "", calibratedOn: null };

/** The analyser: its name, serial number and last calibration. */
export function InstrumentFields({ instrument, day, onInput, onChange }: InstrumentFieldsProps) {
  const now = instrument ?? NO_INSTRUMENT;
  const hint = useId();
  const isLater = now.calibratedOn !== null && now.calibratedOn > day;
  return (
    <>
      <LineField
        name="instrument"
        label="Instrument"
        most={MOST.name}
        value={now.name}
        onInput={(name) => onInput?.({ ...now, name })}
        onChange={(name) => onChange?.({ ...now, name })}
      />
      <LineField
        name="instrument-serial"
        label="Its serial number"
        most={MOST.serial}
        value={now.serial}
        onInput={(serial) => onInput?.({ ...now, serial })}
        onChange={(serial) => onChange?.({ ...now, serial })}
      />
      <label class="field">
        <span>Calibrated on</span>
        <input
          type="date"
          name="calibrated-on"
          min="1990-01-01"
          max="9999-12-31"
          value={now.calibratedOn ?? ""}
          aria-describedby={hint}
          onInput={(event) => onInput?.({ ...now, calibratedOn: event.currentTarget.value || null })}
          onChange={(event) => onChange?.({ ...now, calibratedOn: event.currentTarget.value || null })}
        />
        <span id={hint} role="status">
          {isLater && <b>After {shownDay(day)}: check the date.</b>}
        </span>
      </label>
    </>
  );
}
