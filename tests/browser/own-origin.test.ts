import { expect, test } from "vitest";
import { withApp } from "./app.ts";

test("every request goes to the app's own origin, and no recogniser is loaded before somebody listens", () =>
  withApp({}, async (app) => {
    await app.startVisit();
    await app.type("high fire CO2 nine point two");
    const origin = new URL(app.served.url).origin;
    expect(app.requests.length).toBeGreaterThan(2);
    expect(app.requests.filter((url) => new URL(url).origin !== origin)).toEqual([]);
    expect(app.requests.filter((url) => /\.wasm|weights|model|\/(ear|voice|pdf|office)\//.test(url))).toEqual(
      [],
    );
    expect(app.errors).toEqual([]);
  }));
