import type { Json } from "../../../src/record/plain-json.ts";
import type { Chance } from "../../support/valve/chance.ts";
import { below, noise, pick } from "./mutate.ts";

const NAMES = [
  "__proto__",
  "constructor",
  "prototype",
  "toString",
  "id",
  "seq",
  "format",
  "at",
  "",
  "a\u202eb",
];

/** Values that a field could have, but should not. */
const VALUES: readonly Json[] = [
  null,
  true,
  0,
  -0,
  -1,
  1.5,
  2 ** 53,
  1e308,
  -1e-308,
  "",
  " ",
  "x",
  "=1+1",
  "\u202e\u0000",
  "2026-11-25",
  "2026-02-30T25:61:00Z",
  "2026-11-25T08:00:00Z",
  "+275760-09-13T00:00:00.001Z",
  "0000-01-01T00:00:00Z",
  "Nowhere/At_All",
  [],
  {},
  [[[]]],
  { kind: "note", text: "x" },
  { kind: "strike", target: "e0" },
];

/** One or two changes inside of a value, which is taken over, so that it stays JSON: what comes behind the reader of JSON is reached. */
export function brokenJson(chance: Chance, value: Json): string {
  for (let left = 1 + below(chance, 2); left > 0; left -= 1) changeInside(chance, value, 0);
  return JSON.stringify(value, null, chance.is(0.2) ? 1 : 0);
}

function changeInside(chance: Chance, value: Json, depth: number): void {
  if (typeof value !== "object" || value === null) return;
  const keys = Object.keys(value);
  const key = keys.length > 0 ? pick(chance, keys) : null;
  const inner = key === null ? null : at(value, key);
  const goesDown = typeof inner === "object" && inner !== null && chance.is(depth < 2 ? 0.9 : 0.6);
  if (goesDown) changeInside(chance, inner, depth + 1);
  else if (Array.isArray(value)) changeList(chance, value);
  else changeObject(chance, value, key);
}

function changeList(chance: Chance, list: Json[]): void {
  const place = below(chance, list.length + 1);
  switch (below(chance, 5)) {
    case 0:
      list.splice(place, 1);
      return;
    case 1:
      list.splice(place, 0, structuredClone(list[place] ?? null));
      return;
    case 2:
      list.reverse();
      return;
    case 3:
      list.splice(place, 0, structuredClone(pick(chance, VALUES)));
      return;
    default:
      list[place] = structuredClone(pick(chance, VALUES));
  }
}

function changeObject(chance: Chance, object: { [key: string]: Json }, key: string | null): void {
  const put = (name: string, value: Json): void => {
    // An assignment to __proto__ would be none.
    Object.defineProperty(object, name, { value, enumerable: true, configurable: true, writable: true });
  };
  const odd = structuredClone(pick(chance, VALUES));
  const kind = key === null ? 0 : below(chance, 7);
  const before = at(object, key ?? "");
  if (key === null || kind === 0) put(pick(chance, NAMES), odd);
  else
    switch (kind) {
      case 1:
        delete object[key];
        break;
      case 2:
        delete object[key];
        put(pick(chance, NAMES), before);
        break;
      case 3:
        put(
          key,
          typeof before === "number"
            ? before * chance.from(-3, 3)
            : `${JSON.stringify(before).slice(1, -1)}${noise(chance, 6)}`,
        );
        break;
      case 4:
        put(key, noise(chance, 80));
        break;
      default:
        put(key, odd);
    }
}

function at(value: Json, key: string): Json {
  return (Object.getOwnPropertyDescriptor(value, key)?.value as Json | undefined) ?? null;
}

/** JSON of any shape. */
export function anyJson(chance: Chance, depth = 0): Json {
  const kind = below(chance, depth > 5 ? 5 : 8);
  if (kind >= 5 && kind < 7)
    return Object.fromEntries(
      Array.from({ length: below(chance, 4) }, () => [
        chance.is(0.2) ? pick(chance, NAMES) : noise(chance, 4),
        anyJson(chance, depth + 1),
      ]),
    );
  if (kind === 7) return Array.from({ length: below(chance, 4) }, () => anyJson(chance, depth + 1));
  if (kind === 0) return noise(chance, 12);
  if (kind === 1) return chance.from(-1e6, 1e6);
  return pick(chance, VALUES);
}
