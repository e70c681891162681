import { createHash } from "node:crypto";
import { importVisit } from "../../record/bundle.ts";
import { lineOf } from "../../record/office/kept.ts";
import { logFound } from "../../record/office/log-found.ts";
import type { Problem } from "../../record/problem.ts";
import { decodeText } from "../../record/utf8.ts";
import { findingOf } from "../examine-log.ts";
import { derivedRows } from "./derive.ts";
import { type SentRows, sentRows, storable } from "./sent.ts";
import type { Source } from "./sources.ts";

/** A bundle that is sound, with all that is written of it. */
export interface Sound {
  readonly ok: true;
  readonly name: string;
  readonly sha256: string;
  readonly bytes: number;
  readonly visitId: string;
  /** SHA-256 of `bundle`: two exports are the same where this is. */
  readonly digest: string;
  readonly entries: number;
  /** ISO 8601. */
  readonly endedAt: string;
  /** In the order of the types, without white space. */
  readonly bundle: string;
  readonly rows: SentRows;
}

/** A file that is no sound bundle. */
export interface Unsound {
  readonly ok: false;
  readonly name: string;
  readonly problems: readonly Problem[];
}
export type Judged = Sound | Unsound;

/** Reads, validates and judges what was read from one file or line, and examines its log. */
export async function judged({ name, bytes, sha256 }: Source): Promise<Judged> {
  const read = readBundle(bytes);
  if (!read.ok) return { ok: false, name, problems: read.problems };
  const { visit } = read;
  const bundle = lineOf(visit);
  const digest = digestOf(bundle);
  const rows = derivedRows(visit, digest, logFound(await findingOf(visit)));
  const [row] = rows.visits;
  return {
    ok: true,
    name,
    sha256,
    bytes: bytes.length,
    visitId: storable(visit.head.id),
    digest,
    entries: visit.entries.length,
    endedAt: row?.ended_at ?? visit.head.startedAt,
    bundle,
    rows: sentRows(rows),
  };
}

export function digestOf(bundle: string): string {
  return createHash("sha256").update(bundle).digest("hex");
}

const utf8 = new TextDecoder("utf-8", { fatal: true });

/** The platform's decoder is 20 times as fast; where it or the bundle fails, ours says what is wrong. */
function readBundle(bytes: Uint8Array): ReturnType<typeof importVisit> {
  const text = textOf(bytes);
  if (text !== null) {
    const read = importVisit(text);
    if (read.ok) return read;
  }
  const decoded = decodeText(bytes);
  return decoded.ok ? importVisit(decoded.text) : { ok: false, problems: decoded.problems };
}

function textOf(bytes: Uint8Array): string | null {
  try {
    return utf8.decode(bytes);
  } catch {
    return null;
  }
}
