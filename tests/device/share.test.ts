import { afterEach, describe, expect, test, vi } from "vitest";
import { canShareFiles, shareFile } from "../../src/device/share.ts";

// What the W3C's "Web Share API" says a platform may do: have no sheet, refuse a file, be closed again, refuse without a tap.

afterEach(() => vi.unstubAllGlobals());

const FILE = { name: "follow-ups.ics", type: "text/calendar", data: "BEGIN:VCALENDAR" };
const takes =
  (...types: readonly string[]) =>
  ({ files = [] }: ShareData) =>
    files.every(({ type }) => types.includes(type));
const refuses = (name: string) => () => Promise.reject(new DOMException("no", name));

describe("whether there is a sheet for such files", () => {
  test.each<[string, object, boolean]>([
    ["no sheet", {}, false],
    ["a sheet for texts only", { share: async () => undefined }, false],
    ["a sheet for files", { share: async () => undefined, canShare: takes("application/pdf") }, true],
    ["one that takes no such file", { share: async () => undefined, canShare: takes("image/png") }, false],
  ])("%s", (_what, navigator, can) => {
    vi.stubGlobal("navigator", navigator);
    expect(canShareFiles()).toBe(can);
  });

  test("it is asked by name and type", () => {
    vi.stubGlobal("navigator", { share: async () => undefined, canShare: takes("text/calendar") });
    expect([canShareFiles(FILE), canShareFiles()]).toEqual([true, false]);
  });
});

describe("how sharing ends", () => {
  test.each<[string, object, string]>([
    ["no sheet", {}, "not-possible"],
    ["not such a file", { share: async () => undefined, canShare: takes("image/png") }, "not-possible"],
    ["handed over", { share: async () => undefined, canShare: takes("text/calendar") }, "shared"],
    ["closed again", { share: refuses("AbortError"), canShare: takes("text/calendar") }, "dismissed"],
    [
      "too long after the tap",
      { share: refuses("NotAllowedError"), canShare: takes("text/calendar") },
      "not-possible",
    ],
  ])("%s", async (_what, navigator, ended) => {
    vi.stubGlobal("navigator", navigator);
    expect(await shareFile(FILE)).toBe(ended);
  });

  test("text and bytes are handed over whole", async () => {
    const shared: string[] = [];
    const share = async ({ files = [] }: ShareData) => {
      for (const file of files) shared.push(`${file.name} ${file.type} ${await file.text()}`);
    };
    vi.stubGlobal("navigator", { share, canShare: () => true });
    await shareFile(FILE);
    await shareFile({ ...FILE, data: new TextEncoder().encode("BEGIN:VTODO").subarray(0, 5) });
    expect(shared).toEqual([
      "follow-ups.ics text/calendar BEGIN:VCALENDAR",
      "follow-ups.ics text/calendar BEGIN",
    ]);
  });
});
