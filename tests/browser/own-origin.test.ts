import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { HEADERS, PAGE_POLICY } from "../../src/cli/policy.ts";
import { exportVisit } from "../../src/record/bundle.ts";
import { watchOutside } from "../support/browser/outside.ts";
import { reviewVisit } from "../support/review-visit.ts";
import { type App, withApp } from "./app.ts";
import { untilInstalled } from "./installed.ts";
import { withMicrophone } from "./microphone.ts";

// Nothing leaves the device: seen by the page's requests, by the app's server, and by a proxy for all the rest.

const FETCHED_LATER = /\.wasm|weights|model|\/(ear|voice|pdf|office)\//;

/** Runs in the page before the app: writes down what reaches out without being a request. */
function watchWays(): void {
  const ways: string[] = [];
  Object.assign(globalThis, { ways });
  const told = (name: string) => ({
    construct: () => {
      ways.push(name);
      throw new Error(name);
    },
  });
  for (const name of ["WebSocket", "EventSource", "RTCPeerConnection", "WebTransport", "SharedWorker"]) {
    const made: unknown = Reflect.get(globalThis, name);
    if (typeof made === "function") Reflect.set(globalThis, name, new Proxy(made, told(name)));
  }
  navigator.sendBeacon = () => ways.push("sendBeacon") > 0;
  globalThis.open = () => {
    ways.push("open");
    return null;
  };
}
const ways = (app: App) => app.page.evaluate(() => Reflect.get(globalThis, "ways"));

/** Addresses that the page points at and a browser may fetch or look up unasked. */
const links = (app: App) =>
  app.page.evaluate(() =>
    [...document.querySelectorAll("link, a, img, script")].map(
      (element) =>
        new URL(element.getAttribute("href") ?? element.getAttribute("src") ?? "", document.baseURI).origin,
    ),
  );

async function downloaded(app: App, press: () => Promise<void>): Promise<string> {
  const [download] = await Promise.all([app.page.waitForEvent("download"), press()]);
  return download.suggestedFilename();
}

test("from the first load to the office everything is fetched from the app's own origin, and nothing is sent", async () => {
  const outside = await watchOutside();
  try {
    await withMicrophone(
      { phrases: ["high fire CO2 nine point two, CO forty"], before: 12 },
      async (app) => {
        const { url, asked } = app.served;
        const origin = new URL(url).origin;
        await app.page.addInitScript(watchWays);
        await app.load();
        await app.startVisit();
        // No recogniser before somebody listens.
        expect(asked.filter((each) => FETCHED_LATER.test(each))).toEqual([]);
        await app.listen();
        await app.page.locator(".answer", { hasText: /./ }).waitFor({ timeout: 60_000 });
        // The packaged voice tells of it, and its sound is kept.
        await app.page.locator(".play").first().waitFor();
        await expect.poll(() => asked.join()).toContain("/assets/voice/");
        await app.page.locator(".ear").click();
        await app.type("note order a gasket and come back in two weeks");
        await app.type("finish visit");
        await untilInstalled(app.page);

        await app.page.getByRole("button", { name: "Look it over" }).click();
        await app.page.getByRole("button", { name: "Export visit" }).click();
        const kinds = app.page.locator(".export-choice");
        for (const kind of ["Visit bundle", "Workbook", "Table (CSV)", "Follow-ups (calendar)"])
          await downloaded(app, () => kinds.getByRole("button", { name: `Save: ${kind}` }).click());
        await app.page.goto(`${url}#/`);
        await app.page
          .getByRole("button", { name: /^Visit record: / })
          .first()
          .click();
        await app.page.locator(".record-plate").waitFor();
        const pdf = await downloaded(app, () =>
          app.page.getByRole("button", { name: "Save as PDF" }).click(),
        );
        expect(pdf).toMatch(/\.pdf$/);

        await app.page.goto(`${url}#/office`);
        const bundle = {
          name: "a.json",
          mimeType: "application/json",
          buffer: Buffer.from(exportVisit(reviewVisit())),
        };
        await app.page.locator("input[type=file]").first().setInputFiles(bundle);
        await app.page.getByText("gone through").first().waitFor();

        for (const part of [
          "/sw.js",
          "/assets/ear/",
          "/assets/voice/",
          "/assets/pdf/",
          "/assets/office/",
          "/assets/workbook.worker",
        ])
          expect([part, asked.some((each) => each.startsWith(`GET ${part}`))]).toEqual([part, true]);
        expect(asked.filter((each) => !each.startsWith("GET /"))).toEqual([]);
        expect(app.requests.filter((each) => new URL(each).origin !== origin)).toEqual([]);
        expect(outside.asked).toEqual([]);
        expect(await ways(app)).toEqual([]);
        expect(new Set(await links(app))).toEqual(new Set([origin]));
        expect(app.errors).toEqual([]);
        // The proxy sees what is not the app's: this is how it would look.
        await app.page.goto("http://example.invalid/out").catch(() => undefined);
        expect(outside.asked).toContain("http://example.invalid/out");
      },
      { proxy: outside.proxy, platformVoice: false },
    );
  } finally {
    await outside.close();
  }
});

test("no file of the app knows another way out than a request", () => {
  const files = readdirSync("dist", { recursive: true, encoding: "utf8" }).filter((name) =>
    /\.(js|html)$/.test(name),
  );
  expect(files.length).toBeGreaterThan(10);
  const known = files.filter((name) =>
    /\b(WebSocket|EventSource|RTCPeerConnection|WebTransport|sendBeacon|SharedWorker|prerender|dns-prefetch)\b/.test(
      readFileSync(join("dist", name), "utf8"),
    ),
  );
  expect(known).toEqual([]);
});

/** Tries in the page what its policy forbids; what came of each. */
const tried = (app: App) =>
  app.page.evaluate(async () => {
    const outcome = async (work: () => unknown) => {
      try {
        await work();
        return "done";
      } catch (error) {
        return error instanceof Error ? error.name : String(error);
      }
    };
    // What the browser is told to run from outside may make code of text; what runs after it may not.
    await new Promise((later) => setTimeout(later));
    const script = document.createElement("script");
    const blob = URL.createObjectURL(new Blob(["self.postMessage('ran')"], { type: "text/javascript" }));
    const made = {
      text: await outcome(() => {
        script.textContent = "document.title = 'ran'";
        document.head.append(script);
      }),
      html: await outcome(() => {
        document.createElement("p").innerHTML = "<b>x</b>";
      }),
      eval: await outcome(() => Reflect.get(globalThis, "eval")("document.title = 'ran'")),
      worker: await outcome(() => new Worker("./sw.js")),
      blob: await outcome(() => new Worker(blob)),
      policy: await outcome(() => Reflect.get(globalThis, "trustedTypes").createPolicy("other", {})),
      same: await outcome(() =>
        Reflect.get(globalThis, "trustedTypes").createPolicy("burnerside-own-scripts", {}),
      ),
      fetch: await outcome(() => fetch("https://example.invalid/")),
      image: await outcome(
        () =>
          new Promise((resolve, reject) => {
            const image = new Image();
            image.onload = resolve;
            image.onerror = () => reject(new Error("not loaded"));
            image.src = "data:image/svg+xml,<svg xmlns='http://www.w3.org/2000/svg'/>";
          }),
      ),
    };
    return { ...made, title: document.title };
  });

const REFUSED = {
  text: "TypeError",
  html: "TypeError",
  eval: "EvalError",
  worker: "TypeError",
  blob: "TypeError",
  policy: "TypeError",
  same: "TypeError",
  fetch: "TypeError",
  image: "Error",
  title: "Burnerside",
};

test.each([
  ["by the server's header", true],
  ["by the page's own, where a server sends none", false],
])("no script, worker or address of another kind is let in: %s", (_, headers) =>
  withApp({}, async (app) => {
    if (!headers) {
      await app.launched.context.route(app.served.url, async (route) => {
        const answer = await route.fetch();
        const { "content-security-policy": sent, ...others } = answer.headers();
        expect(sent).toContain(PAGE_POLICY);
        await route.fulfill({ response: answer, headers: others });
      });
      await app.load();
    }
    expect(await app.page.locator("meta[http-equiv='Content-Security-Policy']").getAttribute("content")).toBe(
      PAGE_POLICY,
    );
    expect(await tried(app)).toEqual(REFUSED);
    app.served.refused.length = 0;
  }),
);

test("a worker is held to the policy of its file's headers", () =>
  withApp({}, async (app) => {
    const answer = await app.page.request.get(`${app.served.url}sw.js`);
    for (const [name, value] of Object.entries(HEADERS))
      expect(answer.headers()[name.toLowerCase()]?.startsWith(value)).toBe(true);
  }));
