import type { Sha256 } from "../integrity/chain.ts";
import { type Content, type Counts, counted, type End, type Head, type Line, NONE } from "./line.ts";

/** Where what could not be read is told, while the contents are gone through. */
export interface Contents {
  readonly each: AsyncIterable<Content>;
  /** Asked for at the end: sentences. */
  readonly missing: () => readonly string[];
}

/**
 * A backup line by line, each with its newline: the head, the contents as they come, and the end, which says what was really
 * written. Nothing is held but the digests of the lines.
 */
export async function* backupLines(
  head: Head,
  contents: Contents,
  sha256: Sha256,
): AsyncGenerator<string, End> {
  const digests: string[] = [];
  let counts: Counts = NONE;
  const written = async (line: Line): Promise<string> => {
    const { text, digest } = await signedOff(line, sha256);
    digests.push(digest);
    return text;
  };
  yield written(head);
  for await (const content of contents.each) {
    const kind = counted(content.kind);
    if (kind) counts = { ...counts, [kind]: counts[kind] + 1 };
    yield written(content);
  }
  const all = await sha256(digests.join(""));
  const missing = contents
    .missing()
    .slice(0, 1000)
    .map((sentence) => sentence.slice(0, 2000));
  const end: End = { kind: "end", lines: digests.length, counts, missing, all };
  yield (await signedOff(end, sha256)).text;
  return end;
}

async function signedOff(line: Line, sha256: Sha256): Promise<{ text: string; digest: string }> {
  const text = JSON.stringify(line);
  const digest = await sha256(text);
  return { text: `${text.slice(0, -1)},"sha256":"${digest}"}\n`, digest };
}
