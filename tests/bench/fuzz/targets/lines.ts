import { judged } from "../../../../src/app/office/judged.ts";
import { type Source, STDIN, sourcesIn, type Unread } from "../../../../src/cli/office/sources.ts";
import { linesOf } from "../../../../src/device/office/files.ts";
import { importVisit } from "../../../../src/record/bundle.ts";
import { importVisits } from "../../../../src/record/export/bundles.ts";
import { decodeText } from "../../../../src/record/utf8.ts";
import { BUNDLES, SHEETS } from "../corpus.ts";
import { clearProblems, clearSentence } from "../expect.ts";
import { broken, brokenBytes, pick } from "../mutate.ts";
import { Fault, type Target, target } from "../target.ts";
import { drawText } from "./files.ts";

const SHORT = BUNDLES.filter((_, place) => place % 4 === 0).map((text) => JSON.stringify(JSON.parse(text)));
const utf8 = new TextEncoder();
/** More than any input has. */
const MOST_BYTES = 32 * 1024 * 1024;
const NAME = "Visits.jsonl, line 1";
const NOW = "2026-12-01T08:00:00.000Z";

/** As the network or the disk brings them: cut at any place. */
function* cut(bytes: Uint8Array): Generator<Uint8Array> {
  for (let at = 0; at < bytes.length; at += 777) yield bytes.subarray(at, at + 777);
}

async function* chunks(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  yield* cut(bytes);
}

function streamOf(bytes: Uint8Array): ReadableStream<Uint8Array> {
  return new ReadableStream({
    start(controller) {
      for (const part of cut(bytes)) controller.enqueue(part);
      controller.close();
    },
  });
}

/** How many visits the page of the office takes, line by line. */
async function takenByPage(bytes: Uint8Array): Promise<number> {
  let taken = 0;
  for await (const line of linesOf(streamOf(bytes), MOST_BYTES)) {
    if (!line.bytes) throw new Fault("a line is longer than its file");
    const one = await judged(
      NAME,
      line.bytes,
      NOW,
      async () => true,
      async () => null,
    );
    if (one.kind === "refused") clearSentence(one.sentence);
    else taken += 1;
  }
  return taken;
}

/** How many the command line takes. */
async function takenByBook(bytes: Uint8Array): Promise<number> {
  let taken = 0;
  for await (const source of sourcesIn([STDIN], chunks(bytes))) if (isVisit(source)) taken += 1;
  return taken;
}

function isVisit(source: Source | Unread): boolean {
  if ("problem" in source) {
    clearSentence(source.problem);
    return false;
  }
  const decoded = decodeText(source.bytes);
  const read = decoded.ok ? importVisit(decoded.text) : decoded;
  if (!read.ok) clearProblems(read.problems);
  return read.ok;
}

/** How many an export's reader takes; null where the whole is no UTF-8. */
function takenByExport(bytes: Uint8Array): number | null {
  const decoded = decodeText(bytes);
  if (!decoded.ok) return null;
  let taken = 0;
  for (const { read } of importVisits(decoded.text)) {
    if (read.ok) taken += 1;
    else clearProblems(read.problems);
  }
  return taken;
}

export const LINES: readonly Target[] = [
  target<Uint8Array>({
    name: "office lines (.jsonl)",
    inputs: 4_000,
    draw: (chance) => {
      const lines = Array.from({ length: 1 + Math.floor(chance.from(0, 3)) }, () =>
        chance.is(0.5) ? pick(chance, SHORT) : drawText(chance, [...SHORT, ...SHEETS]),
      );
      const text = lines.join(chance.is(0.1) ? "\r\n" : "\n");
      const bytes = utf8.encode(chance.is(0.3) ? broken(chance, text, SHORT) : text);
      return chance.is(0.3) ? brokenBytes(chance, bytes) : bytes;
    },
    read: async (bytes) => {
      const [page, book, all] = [await takenByPage(bytes), await takenByBook(bytes), takenByExport(bytes)];
      if (page !== book || (all !== null && all !== book))
        throw new Fault(`the page takes ${page} visits, the book ${book}, the export's reader ${all}`);
      return page > 0 ? "accepted" : "refused";
    },
  }),
];
