import { expect, test } from "vitest";
import type { Place } from "../../src/app/place.ts";
import { Places } from "../../src/app/places.ts";

/** A browser's history of addresses, with its back button. */
function browser(first = "") {
  const past = [first];
  let told: (hash: string) => void = () => undefined;
  return {
    past,
    back() {
      past.pop();
      told(past.at(-1) ?? "");
    },
    address: {
      read: () => past.at(-1) ?? "",
      open: (hash: string) => void past.push(hash),
      replace: (hash: string) => void past.splice(-1, 1, hash),
      onChange: (tell: typeof told) => {
        told = tell;
      },
    },
  };
}

const START: Place = { kind: "start" };
const SHEETS: Place = { kind: "sheets" };
const same = async (place: Place) => place;
const settled = () => new Promise((resolve) => setImmediate(resolve));

test("each place is a step back", async () => {
  const { address, past, back } = browser();
  const places = new Places(address, same);
  await places.open(null);
  await places.goTo(SHEETS);
  await places.goTo({ kind: "sheet", id: "a" });
  expect(past).toEqual(["", "/sheets", "/sheet/a"]);
  back();
  await settled();
  expect(places.place.value).toEqual(SHEETS);
  back();
  await settled();
  expect(places.place.value).toEqual(START);
});

test("going where one is adds no step", async () => {
  const { address, past } = browser("/sheets");
  const places = new Places(address, same);
  await places.open(null);
  await places.goTo(SHEETS);
  expect(past).toEqual(["/sheets"]);
});

test("a place that cannot be entered gives the one that is shown instead, and its address", async () => {
  const { address, past } = browser("/boiler");
  const places = new Places(address, async () => START);
  await places.open(null);
  expect([places.place.value, past]).toEqual([START, [""]]);
});

test("a slow way does not undo a later one", async () => {
  const { address } = browser();
  let enter: () => void = () => undefined;
  const places = new Places(address, (place) =>
    place.kind === "boiler"
      ? new Promise((resolve) => {
          enter = () => resolve(place);
        })
      : same(place),
  );
  const slow = places.goTo({ kind: "boiler" });
  await places.goTo(SHEETS);
  enter();
  await slow;
  expect([places.place.value, address.read()]).toEqual([SHEETS, "/sheets"]);
});
