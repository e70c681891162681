import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { importVisit } from "../../src/record/bundle.ts";
import { foldVisit } from "../../src/visit/fold.ts";
import { demoOffice } from "../support/demo-office.ts";

// The office's demo bundles are what the dictated texts give, and everything in them was understood.

const FOLDER = "demo-data/office";
const stored = readdirSync(FOLDER).filter((file) => file.endsWith(".json"));

test("every bundle comes from a text", () => {
  expect([...demoOffice().keys()].sort()).toEqual(stored.sort());
});

test.each([...demoOffice()])("%s is what its text gives", (file, text) => {
  expect(readFileSync(`${FOLDER}/${file}`, "utf8")).toBe(text);
});

test.each(stored)("%s: nothing was left unclear", (file) => {
  const read = importVisit(readFileSync(`${FOLDER}/${file}`, "utf8"));
  expect(read.ok && foldVisit(read.visit).unsure).toEqual([]);
});
