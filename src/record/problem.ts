/** One thing wrong with a file: where, and one clear sentence saying what was expected and what was found. */
export interface Problem {
  /** Like `fuels.natural-gas.high.co2.min` or `entries[3].seq`; empty for the file as a whole. */
  readonly path: string;
  readonly message: string;
}

/** The problems of a result; none where it is sound. */
export function problemsFrom(result: { ok: true } | { ok: false; problems: Problem[] }): Problem[] {
  return result.ok ? [] : result.problems;
}

/** A path as people write it: dots between names, brackets around places in a list and around odd names. */
export function pathText(path: readonly PropertyKey[]): string {
  return path.map((step, place) => stepText(step, place === 0)).join("");
}

function stepText(step: PropertyKey, first: boolean): string {
  if (typeof step === "number") return `[${step}]`;
  const name = String(step);
  if (!/^[\w-]{1,60}$/.test(name)) return `[${quoted(name)}]`;
  return first ? name : `.${name}`;
}

const LONGEST = 60;

/** A value as found in a file, short enough for one sentence, with nothing that could disturb a terminal. */
export function found(value: unknown): string {
  if (value === null) return "null";
  if (Array.isArray(value)) return "a list";
  if (typeof value === "string") return quoted(value);
  if (typeof value === "object") {
    const text = printable(JSON.stringify(value));
    return text.length <= LONGEST ? text : "an object";
  }
  return String(value);
}

/** Text from a file in quotes, cut short. */
export function quoted(text: string): string {
  const cut = text.length > LONGEST ? `${text.slice(0, LONGEST)}…` : text;
  return printable(JSON.stringify(cut));
}

/** Control and direction characters as escapes: a hostile file must not steer the terminal that shows its problems. */
function printable(text: string): string {
  return text.replace(
    /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Default_Ignorable_Code_Point}]/gu,
    (c) => `\\u{${(c.codePointAt(0) ?? 0).toString(16)}}`,
  );
}

/** Problems of one file that are told. */
export const MOST = 1000;

/**
 * Every problem, unless a hostile file has so many that the list itself would be the harm.
 * @param all whether the file was looked through to its end
 */
export function bounded(problems: readonly Problem[], all = true): Problem[] {
  if (problems.length <= MOST) return [...problems];
  const rest = all ? `${problems.length - MOST} more` : "more, and looked no further";
  return [
    ...problems.slice(0, MOST),
    { path: "", message: `Expected at most ${MOST} problems, found ${rest}.` },
  ];
}
