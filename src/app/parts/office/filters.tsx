import { Fuel } from "../../../measure/firing.ts";
import { OUTCOMES, type Outcome } from "../../../record/office/row.ts";
import { FUEL_NAMES } from "../../../record/wording.ts";
import type { Office } from "../../office/office.ts";
import { ALL, COLUMNS, type Column, type Wanted } from "../../office/search.ts";
import { OUTCOME_WORDS } from "../../office/words.ts";
import { COLUMN_NAMES } from "./visits-table.tsx";

/** What the list is searched for, narrowed to, and sorted by where the table has no room for its head. */
export function Filters({ office }: { readonly office: Office }) {
  const wanted = office.wanted.value;
  const { column, descending } = office.sorting.value;
  return (
    <search class="office-filters">
      <label class="field">
        <span>Search</span>
        <input
          type="text"
          name="office-search"
          inputMode="search"
          autocomplete="off"
          value={wanted.words}
          onInput={(event) => office.narrow({ words: event.currentTarget.value })}
        />
      </label>
      <div class="office-filter-fields">
        <Choice
          name="As left"
          all="Any"
          value={wanted.outcome}
          options={OUTCOMES.map((outcome): [Outcome, string] => [outcome, OUTCOME_WORDS[outcome]])}
          choose={(outcome) => office.narrow({ outcome })}
        />
        <Choice
          name="Gas"
          all="Any"
          value={wanted.fuel}
          options={Fuel.options.map((fuel): [Fuel, string] => [fuel, FUEL_NAMES[fuel]])}
          choose={(fuel) => office.narrow({ fuel })}
        />
        <Day name="Since" value={wanted.since} choose={(since) => office.narrow({ since })} />
        <Day name="Until" value={wanted.until} choose={(until) => office.narrow({ until })} />
        <label class="field sort-by">
          <span>Sorted by</span>
          <select
            value={`${column} ${descending}`}
            onChange={(event) => {
              const [chosen, way] = event.currentTarget.value.split(" ");
              const found = COLUMNS.find((each) => each === chosen);
              if (found) office.sorting.value = { column: found, descending: way === "true" };
            }}
          >
            {COLUMNS.flatMap((each) => [
              <option key={`${each} false`} value={`${each} false`}>
                {COLUMN_NAMES[each]}, {WAYS[each][0]}
              </option>,
              <option key={`${each} true`} value={`${each} true`}>
                {COLUMN_NAMES[each]}, {WAYS[each][1]}
              </option>,
            ])}
          </select>
        </label>
      </div>
      <div class="options">
        <Only name="With open things" of="onlyOpen" office={office} />
        <Only name="Not reviewed" of="onlyUnreviewed" office={office} />
        <Only name="With follow-ups" of="onlyFollowUps" office={office} />
        <Only name="Log altered" of="onlyAltered" office={office} />
        {wanted !== ALL && (
          <button
            type="button"
            class="plain"
            onClick={() => {
              office.wanted.value = ALL;
            }}
          >
            Show all again
          </button>
        )}
      </div>
    </search>
  );
}

const LETTERS = ["A first", "Z first"] as const;
const NUMBERS = ["lowest first", "highest first"] as const;

/** What either way of sorting means. */
const WAYS: Readonly<Record<Column, readonly [string, string]>> = {
  day: ["oldest first", "newest first"],
  title: LETTERS,
  place: LETTERS,
  appliance: LETTERS,
  gas: LETTERS,
  technician: LETTERS,
  outcome: ["out of limits first", "proved first"],
  "high-co2": NUMBERS,
  "high-co": NUMBERS,
  "low-co2": NUMBERS,
  "low-co": NUMBERS,
  open: ["fewest first", "most first"],
  "follow-ups": ["fewest first", "most first"],
  reviewed: LETTERS,
};

interface ChoiceProps<T extends string> {
  readonly name: string;
  readonly all: string;
  readonly value: T | null;
  readonly options: readonly (readonly [T, string])[];
  readonly choose: (value: T | null) => void;
}

function Choice<T extends string>({ name, all, value, options, choose }: ChoiceProps<T>) {
  return (
    <label class="field">
      <span>{name}</span>
      <select
        value={value ?? ""}
        onChange={(event) => {
          const { value: chosen } = event.currentTarget;
          choose(options.find(([each]) => each === chosen)?.[0] ?? null);
        }}
      >
        <option value="">{all}</option>
        {options.map(([each, words]) => (
          <option key={each} value={each}>
            {words}
          </option>
        ))}
      </select>
    </label>
  );
}

interface DayProps {
  readonly name: string;
  readonly value: string;
  readonly choose: (day: string) => void;
}

function Day({ name, value, choose }: DayProps) {
  return (
    <label class="field">
      <span>{name}</span>
      <input type="date" value={value} onInput={(event) => choose(event.currentTarget.value)} />
    </label>
  );
}

interface OnlyProps {
  readonly name: string;
  readonly of: keyof { [K in keyof Wanted as Wanted[K] extends boolean ? K : never]: true };
  readonly office: Office;
}

function Only({ name, of, office }: OnlyProps) {
  return (
    <label class="option">
      <input
        type="checkbox"
        checked={office.wanted.value[of]}
        onChange={(event) => office.narrow({ [of]: event.currentTarget.checked })}
      />{" "}
      <span>{name}</span>
    </label>
  );
}
