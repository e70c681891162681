import { expect, test } from "vitest";
import { portOf } from "../../src/cli/serve.ts";

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
