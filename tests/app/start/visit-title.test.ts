import { expect, test } from "vitest";
import { fileNameOf } from "../../../src/app/start/visit-title.ts";
import { head } from "../../support/visits.ts";

// Letters, figures and hyphens only: the portable filename character set (POSIX.1-2017, 3.282, from memory) without "." and "_".
test.each<[title: string, name: string]>([
  ["Mill Lane 4", "burnerside-visit-mill-lane-4-2026-11-25-12345678.json"],
  ["Café / cellar: left?", "burnerside-visit-cafe-cellar-left-2026-11-25-12345678.json"],
  ["../../etc", "burnerside-visit-etc-2026-11-25-12345678.json"],
  ["锅炉", "burnerside-visit-2026-11-25-12345678.json"],
  ["a".repeat(200), `burnerside-visit-${"a".repeat(40)}-2026-11-25-12345678.json`],
])("%s is kept as %s", (title, name) =>
  expect(fileNameOf(head({ id: "123456789", title, startedAt: "2026-11-25T08:00:00.000Z" }))).toBe(name),
);
