import { describe, expect, test } from "vitest";
import { droppedFiles, handedFile, linesOf } from "../../../src/device/office/files.ts";

const MEBIBYTE = new Uint8Array(1024 * 1024);

describe("lines of a stream", () => {
  const stream = (...chunks: string[]) =>
    new ReadableStream<Uint8Array>({
      start(controller) {
        for (const chunk of chunks) controller.enqueue(new TextEncoder().encode(chunk));
        controller.close();
      },
    });

  test.each<readonly [string, string[], string[]]>([
    ["nothing", [], []],
    ["one without an end", ["ab"], ["ab"]],
    ["one with its end", ["ab\n"], ["ab"]],
    ["one too long, whole or cut", ["abc\na", "b", "c\nd"], ["3 bytes", "3 bytes", "d"]],
    ["cut anywhere", ["a", "b\nc", "\n", "d"], ["ab", "c", "d"]],
    ["blank ones stay", ["\n\na"], ["", "", "a"]],
    ["letters of more than one byte", ["é\nü"], ["é", "ü"]],
  ])("%s", async (_, chunks, expected) => {
    const lines: string[] = [];
    for await (const { size, bytes } of linesOf(stream(...chunks), 2)) {
      expect(bytes?.length ?? 9).toBe(size <= 2 ? size : 9);
      lines.push(bytes ? new TextDecoder().decode(bytes) : `${size} bytes`);
    }
    expect(lines).toEqual(expected);
  });

  test("one without end is counted, and no more of it is kept than was asked for", async () => {
    let chunks = 0;
    const endless = new ReadableStream<Uint8Array>({
      pull(controller) {
        chunks += 1;
        // All in all four gigabytes: were they kept, there would be no room for them.
        controller.enqueue(new Uint8Array(chunks === 4096 ? [10, 123] : MEBIBYTE));
        if (chunks === 4096) controller.close();
      },
    });
    const lines: [number, number | undefined][] = [];
    for await (const { size, bytes } of linesOf(endless, 32 * MEBIBYTE.length))
      lines.push([size, bytes?.length]);
    expect(lines).toEqual([
      [4095 * MEBIBYTE.length, undefined],
      [1, 1],
    ]);
  });
});

test("a file as it was handed over: its bytes, and its lines", async () => {
  const handed = handedFile(new File(["a\nb"], "two.jsonl"));
  expect([handed.name, handed.size, ...(await handed.bytes())]).toEqual(["two.jsonl", 3, 97, 10, 98]);
  const lines: string[] = [];
  for await (const { bytes } of handed.lines(1)) lines.push(new TextDecoder().decode(bytes ?? undefined));
  expect(lines).toEqual(["a", "b"]);
});

describe("what was dropped", () => {
  const plain = (name: string) => new File(["{}"], name);
  const fileEntry = (name: string) => ({
    isFile: true,
    isDirectory: false,
    file: (resolve: (file: File) => void) => resolve(plain(name)),
  });
  /** A folder that is told in parts, as browsers tell one of more than a hundred. */
  const folderEntry = (...parts: readonly (readonly object[])[]) => ({
    isFile: false,
    isDirectory: true,
    createReader: () => {
      const left = [...parts];
      return { readEntries: (resolve: (entries: readonly object[]) => void) => resolve(left.shift() ?? []) };
    },
  });
  const item = (entry: object | null, file: File | null, kind = "file") => ({
    kind,
    webkitGetAsEntry: () => entry,
    getAsFile: () => file,
  });
  const names = async (...items: object[]) =>
    (await droppedFiles({ items } as unknown as DataTransfer)).map(({ name }) => name);

  test.each<readonly [string, object[], string[]]>([
    ["nothing", [], []],
    ["files", [item(fileEntry("a"), plain("a")), item(fileEntry("b"), plain("b"))], ["a", "b"]],
    ["a file where the platform knows no folders", [item(null, plain("a"))], ["a"]],
    ["a text is no file", [item(null, null, "string")], []],
    ["an empty folder", [item(folderEntry(), null)], []],
    [
      "a folder in a folder, told in parts",
      [
        item(folderEntry([fileEntry("a"), folderEntry([fileEntry("b")])], [fileEntry("c")]), null),
        item(null, plain("d")),
      ],
      ["a", "b", "c", "d"],
    ],
  ])("%s", async (_, items, expected) => expect(await names(...items)).toEqual(expected));
});
