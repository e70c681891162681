import { takeTurn } from "../../../../src/answer/turn.ts";
import { loadLanguage, loadStartLanguage } from "../../../../src/cli/language.ts";
import { Meaning } from "../../../../src/meaning/item.ts";
import { createParser } from "../../../../src/meaning/parser.ts";
import { startMeaning } from "../../../../src/meaning/start.ts";
import { refusal } from "../../../../src/measure/quantity.ts";
import { tasksOf } from "../../../../src/record/notes/tasks.ts";
import { Entry } from "../../../../src/visit/entry.ts";
import { isWithin, MOST_TASKS, Task } from "../../../../src/visit/task.ts";
import type { Visit } from "../../../../src/visit/visit.ts";
import type { Chance } from "../../../support/valve/chance.ts";
import { head, typed } from "../../../support/visits.ts";
import { NOTES, PHRASES } from "../corpus.ts";
import { broken, noise, pick } from "../mutate.ts";
import { Fault, type Target, target, type Verdict } from "../target.ts";

const parser = createParser(loadLanguage());
const { piece } = loadStartLanguage();
const STARTS = ["sheet two propane go", "no sheet natural gas go", "start with sheet one", "go"];
const ZONES = [null, "Europe/London", "America/St_Johns", "Pacific/Kiritimati", "Nowhere/At_All"];

function drawPhrase(chance: Chance, own: readonly string[]): string {
  if (chance.is(0.1)) return noise(chance, 120);
  if (chance.is(0.3)) {
    const words = Array.from({ length: 1 + Math.floor(chance.from(0, 4)) }, () => pick(chance, own));
    return words.join(pick(chance, [" ", ", ", ". ", " no ", "\u00a0"]));
  }
  return broken(chance, pick(chance, own), own);
}

function verdict(found: boolean): Verdict {
  return found ? "accepted" : "refused";
}

export const WORDS: readonly Target[] = [
  target<string>({
    name: "phrase",
    inputs: 14_000,
    draw: (chance) => drawPhrase(chance, PHRASES),
    read: (text) => {
      const meaning = Meaning.parse(parser.parse(text));
      if (meaning.text !== text) throw new Fault("the meaning is of another text");
      const { items, unsure } = meaning;
      for (const item of [...items, ...unsure.flatMap(({ candidates }) => candidates)])
        if (item.kind === "reading" && refusal(item.quantity, item.value, item.unit) !== null)
          throw new Fault(`an impossible reading: ${JSON.stringify(item)}`);
      return verdict(items.length + unsure.length > 0);
    },
  }),
  target<readonly string[]>({
    name: "phrases of a visit, answered",
    inputs: 2_500,
    draw: (chance) =>
      Array.from({ length: 1 + Math.floor(chance.from(0, 5)) }, () =>
        chance.is(0.5) ? pick(chance, PHRASES) : drawPhrase(chance, PHRASES),
      ),
    read: (phrases) => {
      let visit: Visit = { format: "burnerside-visit/1", head: head(), entries: [] };
      let asked: Parameters<typeof takeTurn>[6] = [];
      phrases.forEach((phrase, turn) => {
        const at = new Date(Date.parse(visit.head.startedAt) + turn * 30_000).toISOString();
        let ids = 0;
        const taken = takeTurn(parser, visit, typed(phrase), at, () => `e${turn}.${ids++}`, "normal", asked);
        if (taken.visit.entries.length !== visit.entries.length + taken.entries.length)
          throw new Fault("entries were lost");
        for (const entry of taken.entries) Entry.parse(entry);
        ({ visit, asked } = taken);
      });
      return verdict(visit.entries.length > 0);
    },
  }),
  target<string>({
    name: "start sentence",
    inputs: 6_000,
    draw: (chance) => drawPhrase(chance, chance.is(0.8) ? STARTS : PHRASES),
    read: (text) => {
      const { go, sheet, fuel, rest } = startMeaning(piece, text);
      if (typeof sheet === "number" && !(Number.isInteger(sheet) && sheet >= 1))
        throw new Fault(`sheet ${sheet}`);
      return verdict((go || sheet !== null || fuel !== null) && rest.length === 0);
    },
  }),
  target<{ readonly text: string; readonly at: string; readonly zone: string | null }>({
    name: "note",
    inputs: 6_000,
    draw: (chance) => ({
      text: drawPhrase(chance, NOTES),
      at: new Date(chance.from(0, 4e12)).toISOString(),
      zone: pick(chance, ZONES),
    }),
    read: ({ text, at, zone }) => {
      const tasks = tasksOf(text, at, zone);
      if (tasks.length > MOST_TASKS) throw new Fault(`${tasks.length} tasks`);
      for (const task of tasks)
        if (!isWithin(Task.parse(task), text)) throw new Fault("a task of words that are not there");
      return verdict(tasks.length > 0);
    },
  }),
];
