import type { Entry } from "../../visit/entry.ts";
import type { VisitHead } from "../../visit/visit.ts";
import { canonicalText } from "./canonical.ts";

/** SHA-256 of a text in UTF-8, in base64url without padding. */
export type Sha256 = (text: string) => string | Promise<string>;

/** The link of a visit's head, with which its chain begins. */
export async function headLink(head: VisitHead, sha256: Sha256): Promise<string> {
  return sha256(canonicalText({ head }));
}

/** The link of an entry: of itself and of the link before it, and so of all that was before. */
export async function nextLink(previous: string, entry: Entry, sha256: Sha256): Promise<string> {
  return sha256(canonicalText({ entry, previous }));
}

/** The links of a whole log: of its head, then of each entry. `breathe` is awaited between them. */
export async function linksOf(
  { head, entries }: { readonly head: VisitHead; readonly entries: readonly Entry[] },
  sha256: Sha256,
  breathe: () => Promise<void> = async () => {},
): Promise<string[]> {
  let last = await headLink(head, sha256);
  const links = [last];
  for (const entry of entries) {
    last = await nextLink(last, entry, sha256);
    links.push(last);
    await breathe();
  }
  return links;
}
