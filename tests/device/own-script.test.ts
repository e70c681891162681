import { afterEach, describe, expect, test, vi } from "vitest";

// The page's address and its Trusted Types are stood in for; that browsers enforce them is tested in tests/browser/own-origin.test.ts.

const PAGE = "https://app.invalid/burnerside/index.html#/office";

afterEach(() => {
  vi.unstubAllGlobals();
  vi.resetModules();
});

async function loaded(page: string, trustedTypes?: object) {
  vi.stubGlobal("location", { href: page });
  vi.stubGlobal("trustedTypes", trustedTypes);
  return import("../../src/device/own-script.ts");
}

describe.each([
  ["without Trusted Types", undefined],
  [
    "with them",
    {
      createPolicy: (_: string, { createScriptURL }: { createScriptURL: (address: string) => string }) => ({
        createScriptURL,
      }),
    },
  ],
])("%s", (_, trustedTypes) => {
  test.each([
    ["./sw.js", "https://app.invalid/burnerside/sw.js"],
    [
      "https://app.invalid/burnerside/assets/ear/worker-1.js",
      "https://app.invalid/burnerside/assets/ear/worker-1.js",
    ],
  ])("%s is the app's own", async (address, whole) => {
    const { ownScript } = await loaded(PAGE, trustedTypes);
    expect(String(ownScript(address))).toBe(whole);
  });

  test.each([
    "https://other.invalid/worker.js",
    "//other.invalid/worker.js",
    "http://app.invalid/burnerside/sw.js",
    "https://app.invalid:8443/sw.js",
    "blob:https://app.invalid/0f7c",
    "data:text/javascript,postMessage(1)",
    "javascript:alert(1)",
    "filesystem:https://app.invalid/temporary/x.js",
  ])("%s is not", async (address) => {
    const { ownScript } = await loaded(PAGE, trustedTypes);
    expect(() => ownScript(address)).toThrow(TypeError);
  });
});

test("one policy is made, with the name that the page's security policy allows", async () => {
  const createPolicy = vi.fn(() => ({ createScriptURL: String }));
  const { OWN_SCRIPTS, ownScript } = await loaded(PAGE, { createPolicy });
  ownScript("./a.js");
  ownScript("./b.js");
  expect(createPolicy.mock.calls).toEqual([[OWN_SCRIPTS, expect.anything()]]);
});
