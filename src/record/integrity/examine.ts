import type { Visit } from "../../visit/visit.ts";
import { headLink, nextLink, type Sha256 } from "./chain.ts";
import type { Finding, Misfit, Signed } from "./finding.ts";
import { readStatement, type Statement } from "./statement.ts";

/** A signature that was verified with the public key that it carries: what was signed, and the key's thumbprint. */
export type SignatureRead =
  | { readonly ok: true; readonly payload: string; readonly key: string }
  | { readonly ok: false };

/** What examining needs of the platform's cryptography. */
export interface Examiner {
  readonly sha256: Sha256;
  /** Never rejects for what is no signature. */
  readonly verify: (signature: string) => Promise<SignatureRead>;
}

/**
 * Whether a log is whole, signed in part, altered (and where) or unsigned. Every link is checked against the link before it as it stands in
 * the file, so that one changed entry is one misfit and hides no other. Never rejects for what is in the visit.
 */
export async function examine(
  visit: Visit,
  examiner: Examiner,
  breathe: () => Promise<void> = async () => {},
): Promise<Finding> {
  const { integrity, head, entries } = visit;
  if (!integrity) return { kind: "unsigned", linked: false };
  const misfits = await brokenLinks(visit, integrity.links, examiner.sha256, breathe);
  const linksFit = misfits.length === 0;
  const read = await Promise.all(integrity.signatures.map(examiner.verify));
  const sound: Sound[] = [];
  read.forEach((one, number) => {
    const statement = one.ok ? readStatement(one.payload) : null;
    const misfit = (why: Extract<Misfit, { kind: "signature" }>["why"]) =>
      misfits.push({ kind: "signature", number, why });
    if (!one.ok) misfit("not-valid");
    else if (!statement) misfit("no-statement");
    else if (statement.visit !== head.id) misfit("other-visit");
    else sound.push({ statement, key: one.key });
  });
  if (linksFit) misfits.push(...unfitting(sound, integrity.links));
  if (misfits.length > 0) return { kind: "altered", misfits };
  if (sound.length === 0) return { kind: "unsigned", linked: true };
  const signedEntries = Math.max(...sound.map(({ statement }) => statement.entries));
  return {
    kind: signedEntries === entries.length ? "whole" : "in-part",
    signed: sound.map(signedBy),
    signedEntries,
    entries: entries.length,
    takenIn: unseen(sound),
  };
}

interface Sound {
  readonly statement: Statement;
  readonly key: string;
}

function signedBy({ statement: { entries, at }, key }: Sound): Signed {
  return { key, entries, at };
}

async function brokenLinks(
  { head, entries }: Visit,
  links: readonly string[],
  sha256: Sha256,
  breathe: () => Promise<void>,
): Promise<Misfit[]> {
  const misfits: Misfit[] = [];
  if (links.length !== entries.length + 1)
    misfits.push({ kind: "length", links: links.length - 1, entries: entries.length });
  let [previous] = links;
  if (previous !== undefined && previous !== (await headLink(head, sha256))) misfits.push({ kind: "head" });
  for (const [seq, entry] of entries.entries()) {
    const link = links[seq + 1];
    if (previous === undefined || link === undefined) break;
    if (link !== (await nextLink(previous, entry, sha256))) misfits.push({ kind: "entry", seq });
    previous = link;
    await breathe();
  }
  return misfits;
}

/** Statements that do not fit the links, where those fit each other. What an earlier statement vouches for is not in doubt. */
function unfitting(sound: readonly Sound[], links: readonly string[]): Misfit[] {
  const misfits: Misfit[] = [];
  let vouched = 0;
  for (const one of [...sound].sort((a, b) => a.statement.entries - b.statement.entries)) {
    const { entries, link } = one.statement;
    const here = links[entries];
    if (here === link) vouched = entries;
    else if (here === undefined)
      misfits.push({ kind: "cut", entries: links.length - 1, signed: signedBy(one) });
    else misfits.push({ kind: "between", from: vouched, to: entries, signed: signedBy(one) });
  }
  return misfits;
}

/** How many signed entries lie in no stretch that a signing device saw being made. */
function unseen(sound: readonly Sound[]): number {
  let known = 0;
  let missed = 0;
  for (const { ownFrom, entries } of sound.map(({ statement }) => statement).sort(byOwnFrom)) {
    missed += Math.max(0, Math.min(ownFrom, entries) - known);
    known = Math.max(known, entries);
  }
  return missed;
}

function byOwnFrom(a: Statement, b: Statement): number {
  return a.ownFrom - b.ownFrom || a.entries - b.entries;
}
