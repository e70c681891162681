import { type FileKind, sizeProblem } from "./format.ts";
import { problemsIn, readJson } from "./json.ts";
import { type Problem, problemsFrom } from "./problem.ts";

export interface Refused {
  readonly ok: false;
  readonly problems: Problem[];
}

/** Reads the text of one kind of file: not too large, JSON, and then what `from` says of its value. All problems are reported. */
export function readText<Sound extends { readonly ok: true }>(
  text: string,
  kind: FileKind,
  from: (raw: unknown) => Sound | Refused,
): Sound | Refused {
  const tooLarge = sizeProblem(text.length, kind);
  if (tooLarge) return { ok: false, problems: [tooLarge] };
  const read = readJson(text);
  if (read.ok) return from(read.value);
  return { ok: false, problems: problemsIn(read, (value) => problemsFrom(from(value))) };
}
