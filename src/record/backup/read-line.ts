import { escaped } from "../../measure/quoted.ts";
import type { Sheet } from "../../visit/sheet.ts";
import { visitFrom } from "../bundle.ts";
import type { Sha256 } from "../integrity/chain.ts";
import { readJson } from "../json.ts";
import { bounded, type Problem } from "../problem.ts";
import { sheetFrom } from "../sheet-file.ts";
import { decodeText } from "../utf8.ts";
import { problemsOf } from "../zod-problems.ts";
import { BACKUP_LIMITS, LINE_LIMITS } from "./limits.ts";
import { type ClipLine, type End, type Head, Line, type OfficeDoneLine } from "./line.ts";

type Visit = Extract<ReturnType<typeof visitFrom>, { ok: true }>["visit"];

/** What a line holds, through the reader of its kind. */
export type Item =
  | Head
  | End
  | { readonly kind: "settings"; readonly settings: unknown }
  | { readonly kind: "sheet"; readonly sheet: Sheet }
  | { readonly kind: "visit"; readonly visit: Visit }
  | ClipLine
  | { readonly kind: "office-visit"; readonly file: string; readonly visit: Visit }
  | OfficeDoneLine;

/** A line that cannot be used: what it was as far as it can be told, and all that is wrong with it. */
export interface Damage {
  /** Such as `visit "Boiler room"`; "" where nothing can be told. */
  readonly what: string;
  readonly kind: Line["kind"] | null;
  readonly problems: readonly Problem[];
}

export type LineRead =
  | { readonly ok: true; readonly item: Item; readonly digest: string }
  | { readonly ok: false; readonly damage: Damage };

const MIB = 1024 * 1024;

/** What stands last in each line. */
const DIGEST = /,"sha256":"([\w-]{43})"\}$/;

/** Reads one line of a backup, that may be damaged or hostile. All problems of it are reported. */
export async function readLine(bytes: Uint8Array, sha256: Sha256): Promise<LineRead> {
  const decoded = decodeText(bytes);
  if (!decoded.ok) return damaged("", decoded.problems);
  const text = decoded.text.replace(/\r$/, "");
  const { kind } = guessed(text);
  if (kind === null)
    return damaged(text, [
      { path: "kind", message: 'Expected a line that begins with its "kind", found another beginning.' },
    ]);
  const most = LINE_LIMITS[kind] ?? BACKUP_LIMITS.line;
  if (bytes.length > most)
    return damaged(text, [
      { path: "", message: `Expected a line of at most ${most / MIB} MiB, found a longer one.` },
    ]);
  const [tail = "", digest] = DIGEST.exec(text) ?? [];
  if (digest === undefined)
    return damaged(text, [
      { path: "", message: 'Expected a line that ends with its "sha256", found another end.' },
    ]);
  const body = `${text.slice(0, -tail.length)}}`;
  if ((await sha256(body)) !== digest)
    return damaged(text, [
      { path: "sha256", message: "Expected the line as it was written, found a changed one." },
    ]);
  const read = readJson(body);
  if (!read.ok) return damaged(text, read.problems);
  const line = Line.safeParse(read.value);
  if (!line.success) return damaged(text, bounded(problemsOf(line.error.issues, read.value)));
  const item = itemOf(line.data);
  return item.ok ? { ok: true, item: item.item, digest } : damaged(text, item.problems);
}

type ItemRead =
  | { readonly ok: true; readonly item: Item }
  | { readonly ok: false; readonly problems: readonly Problem[] };

function itemOf(line: Line): ItemRead {
  switch (line.kind) {
    case "visit":
    case "office-visit": {
      const read = visitFrom(line.bundle);
      if (!read.ok) return { ok: false, problems: within("bundle", read.problems) };
      const { visit } = read;
      const item: Item =
        line.kind === "visit" ? { kind: "visit", visit } : { kind: "office-visit", file: line.file, visit };
      return { ok: true, item };
    }
    case "sheet": {
      const read = sheetFrom(line.sheet);
      return read.ok
        ? { ok: true, item: { kind: "sheet", sheet: read.sheet } }
        : { ok: false, problems: within("sheet", read.problems) };
    }
    case "head":
    case "settings":
    case "clip":
    case "office-done":
    case "end":
      return { ok: true, item: line };
  }
}

function within(place: string, problems: readonly Problem[]): Problem[] {
  return problems.map(({ path, message }) => ({ path: path === "" ? place : `${place}.${path}`, message }));
}

function damaged(text: string, problems: readonly Problem[]): LineRead {
  return { ok: false, damage: { ...guessed(text), problems } };
}

const KINDS: ReadonlySet<string> = new Set(Line.options.map(({ shape }) => shape.kind.value));

function isKind(name: string): name is Line["kind"] {
  return KINDS.has(name);
}

/** What a broken line was, from what of it can still be read: its kind stands first, a title comes soon. */
function guessed(text: string): Pick<Damage, "what" | "kind"> {
  const kind = /^\{"kind":"([a-z-]{1,20})"/.exec(text)?.[1] ?? "";
  if (!isKind(kind)) return { what: "", kind: null };
  const title = /"title":("(?:[^"\\]|\\.){1,200}")/.exec(text.slice(0, 4000))?.[1];
  const name = { visit: "visit", sheet: "limits sheet", "office-visit": "visit of the office" };
  const called = kind in name ? name[kind as keyof typeof name] : null;
  if (called === null) return { what: "", kind };
  return { what: title === undefined ? called : `${called} ${escaped(title)}`, kind };
}
