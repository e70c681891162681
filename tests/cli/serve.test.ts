import type { Server } from "node:http";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { HEADERS } from "../../src/cli/policy.ts";
import { answersFrom, listening, portOf } from "../../src/cli/serve.ts";
import { testFolder } from "../support/folder.ts";

test.each<[string, number | null]>([
  ["", 4173],
  ["--port 4319", 4319],
  ["--port=4319", 4319],
  ["--port 1", 1],
  ["--port 65535", 65_535],
  ["--port 65536", null],
  ["--port 0", null],
  ["--port", null],
  ["--port=", null],
  ["--port x", null],
  ["--port 80 90", null],
  ["4319", null],
  ["--host x", null],
])("npm start -- %s: port %s", (args, port) =>
  expect(portOf(args.split(" ").filter((arg) => arg !== ""))).toBe(port),
);

describe("what is served", () => {
  const { path: folder, file } = testFolder();
  let url = "";
  let server: Server;
  beforeAll(async () => {
    file("index.html", "<title>app</title>");
    server = await listening(answersFrom(folder), 0, "127.0.0.1");
    const address = server.address();
    url = typeof address === "object" && address ? `http://127.0.0.1:${address.port}` : "";
  });
  afterAll(() => void server.close());

  // Names and values after W3C Content Security Policy 3, Permissions Policy, WHATWG Fetch and HTML (from memory).
  test.each(["/", "/index.html", "/nothing.js"])("%s comes with all that keeps others out", async (path) => {
    const { headers } = await fetch(`${url}${path}`);
    expect(Object.fromEntries(Object.keys(HEADERS).map((name) => [name, headers.get(name)]))).toEqual(
      HEADERS,
    );
    const policy = headers.get("content-security-policy") ?? "";
    const directives = new Map(
      policy.split("; ").map((each): [string, string] => {
        const [name = "", ...values] = each.split(" ");
        return [name, values.join(" ")];
      }),
    );
    expect(directives.get("default-src")).toBe("'none'");
    expect(directives.get("script-src")).toBe("'self' 'wasm-unsafe-eval'");
    expect(directives.get("connect-src")).toBe("'self'");
    expect(directives.get("frame-ancestors")).toBe("'none'");
    expect(directives.get("require-trusted-types-for")).toBe("'script'");
    // Nothing inline, no text as code, no other origin.
    expect(policy).not.toMatch(/unsafe-inline|'unsafe-eval'|unsafe-hashes|https?:|data:|\*/);
    expect(headers.get("permissions-policy")).toMatch(/microphone=\(self\)/);
    expect(headers.get("permissions-policy")).toMatch(/camera=\(\)/);
  });

  test("nothing outside of the folder is", async () => {
    for (const path of ["/../package.json", "/%2e%2e/package.json", "/..%2fpackage.json"])
      expect([path, (await fetch(`${url}${path}`)).status]).toEqual([path, 404]);
  });
});
