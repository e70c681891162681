import { join } from "node:path";
import { expect, test } from "vitest";
import { testFolder } from "../folder.ts";
import { serveApp } from "./serve.ts";

const { path: folder, file } = testFolder();

test("what was built is served on the loopback, on a port of its own each time, until it is closed", async () => {
  file("index.html", "<title>built</title>");
  const [one, other] = [await serveApp(folder), await serveApp(folder)];
  expect(one.url).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/$/);
  expect(other.url).not.toBe(one.url);
  expect(await (await fetch(one.url)).text()).toContain("<title>built</title>");
  await Promise.all([one.close(), other.close()]);
  await expect(fetch(one.url)).rejects.toThrow();
});

test("what was not built is not served", async () => {
  const nowhere = join(folder, "none");
  await expect(serveApp(nowhere)).rejects.toThrow(
    `Expected the built app in ${nowhere}, found none: run npx vite build first.`,
  );
});
