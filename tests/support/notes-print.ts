import { noteLines, shortTasks } from "./notes.ts";

// What all notes of the corpus ask for at some awkward times and places, for a test that runs this under several time zones.
const MOMENTS: readonly (readonly [at: string, zone: string | null])[] = [
  ["2026-11-26T10:00:00Z", "Europe/London"],
  ["2026-12-31T23:59:59Z", null],
  ["2026-12-31T23:59:59Z", "Asia/Tokyo"],
  ["2027-01-01T00:30:00Z", "America/Los_Angeles"],
  ["2026-03-29T00:59:00Z", "Europe/London"],
  ["2026-03-28T22:30:00Z", "Europe/Berlin"],
  ["2026-10-25T00:30:00Z", "Europe/Berlin"],
  ["2026-03-08T07:30:00Z", "America/New_York"],
  ["2028-02-29T12:00:00Z", "Pacific/Kiritimati"],
  ["2026-09-06T03:30:00Z", "America/Santiago"],
];

const DAYS =
  "today, tomorrow, in 12 hours, in 36 hours, in two days, on friday, next friday, on the 31st, in a month, in a year, on march 29, on 25 october, at the end of the month";

const dated = noteLines("notes.txt").filter(({ expected }) => expected.includes("@"));

for (const [at, zone] of MOMENTS) {
  for (const { text } of dated) process.stdout.write(`${shortTasks(text, at, zone)}\n`);
  for (const day of DAYS.split(", ")) process.stdout.write(`${shortTasks(`come back ${day}`, at, zone)}\n`);
}
