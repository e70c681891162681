import { expect, test } from "vitest";
import { type App, withApp } from "./app.ts";

// What a note asks for, shown in the review with the words that it came from, and mended; in the real IndexedDB.

const NOTE = "order new condensate trap gasket and come back in two weeks";

const meaning = (app: App, words: string) =>
  app.page.locator(".said-row", { hasText: words }).locator(".meaning");
const tasks = async (app: App) =>
  (await app.texts(".task > p")).map((text) => text.replace(/\s+/g, " ").trim());
const kept = async (app: App) =>
  (await app.stored()).map(({ entry }) => entry.body).filter(({ kind }) => kind === "tasks");
const button = (app: App, name: RegExp) => app.page.getByRole("button", { name });
const idle = (app: App) => app.page.locator(`main.afterwards[aria-busy="false"]`).waitFor();

test("a note said at the boiler is answered as ever; afterwards its follow-ups are shown, mended and kept", () =>
  withApp({}, async (app) => {
    await app.startVisit();
    await app.type(`note ${NOTE}`);
    await app.type("note customer is pleased");
    expect((await app.stored()).map(({ entry }) => entry.body)).toEqual([
      { kind: "note", text: NOTE },
      { kind: "note", text: "customer is pleased" },
    ]);
    // What understands notes is loaded when a note is looked at, and not before.
    const loaded = () =>
      app.page.evaluate<string[]>("performance.getEntriesByType('resource').map(({ name }) => name)");
    const isNotes = (url: string) => /\/task-words-[\w-]+\.js/.test(url);
    expect((await loaded()).filter(isNotes)).toEqual([]);
    await app.page.getByRole("button", { name: "Look it over" }).click();
    await app.page.locator(".task").first().waitFor();
    expect((await loaded()).filter(isNotes)).not.toEqual([]);

    expect(await tasks(app)).toEqual(["to do Order condensate trap gasket", "to do Come back"]);
    expect(await app.texts(".thing-name u")).toEqual([
      "order",
      "condensate trap gasket",
      "come back",
      "in two weeks",
    ]);
    expect(await app.text(".task >> nth=1 >> .fields-said")).toMatch(
      /When \w+day, \d+ \w+ 20\d\d “in two weeks”/,
    );
    expect(await meaning(app, "customer is pleased").textContent()).toContain("Nothing to follow up.");

    // By keyboard alone: the day, what it is about and who, and a third task.
    await button(app, /^Change: Come back/).press("Enter");
    await app.page.getByLabel("Day, where there is one").fill("2030-03-04");
    await app.page.getByLabel("Who does it").selectOption("plumber");
    await app.page.getByRole("button", { name: "Keep", exact: true }).press("Enter");
    await app.page.getByText("Monday, 4 Mar 2030").waitFor();
    await button(app, /^Add to what “order new/).click();
    // Nothing is chosen for whoever adds: what is kept at once is refused.
    await app.page.getByRole("button", { name: "Keep", exact: true }).click();
    await app.page.getByText("Choose an action first").waitFor();
    expect(await tasks(app)).toHaveLength(2);
    await app.page.getByLabel("Action").selectOption("bring");
    await app.page.getByLabel("Thing", { exact: true }).fill("long ladder");
    await app.page.getByLabel("Thing", { exact: true }).press("Enter");
    await app.page.locator(".task >> nth=2").waitFor();
    await idle(app);
    expect(await tasks(app)).toEqual([
      "to do Order condensate trap gasket",
      "to do Plumber to come back",
      "to do Bring long ladder",
    ]);
    expect(await app.text(".task >> nth=2 >> .fields-said")).toMatch(/Thing long ladder typed in/);
    const said = { from: NOTE.indexOf("come back"), to: NOTE.indexOf("come back") + 9 };
    expect((await kept(app)).at(-1)).toMatchObject({
      tasks: [
        { action: { value: "order", span: { from: 0, to: 5 } }, thing: { value: "condensate trap gasket" } },
        {
          action: { value: "return", span: said },
          due: { value: "2030-03-04", span: null },
          who: { value: "plumber", span: null },
          done: false,
        },
        { action: { value: "bring", span: null }, thing: { value: "long ladder", span: null }, due: null },
      ],
    });

    // Removed, done, and there after a reload.
    await button(app, /^Remove: Order condensate/).click();
    await app.page.locator(".task >> nth=2").waitFor({ state: "detached" });
    await button(app, /^Change: Bring long ladder/).click();
    await app.page.getByLabel("Done in this visit").check();
    await app.page.getByRole("button", { name: "Keep", exact: true }).click();
    await app.page.getByText("done", { exact: true }).waitFor();
    await idle(app);
    await app.page.reload();
    await app.page.locator(".task >> nth=1").waitFor();
    expect(await tasks(app)).toEqual(["to do Plumber to come back", "done Bring long ladder"]);
    await app.page.getByText("Changed by hand.").waitFor();
    expect(await app.texts(".thing-name u")).toEqual(["come back"]);

    // Back to what the words say.
    await button(app, /^Back to what the words/).click();
    await app.page.getByText("Found right by hand.").waitFor();
    expect(await tasks(app)).toEqual(["to do Order condensate trap gasket", "to do Come back"]);
    expect(await kept(app)).toHaveLength(5);
    // A mended text speaks for itself.
    await app.page
      .locator(".thing", { hasText: "condensate trap gasket" })
      .getByRole("button", { name: /^Mend: / })
      .first()
      .click();
    // It is mended from its own words on.
    expect(await app.page.getByLabel("It was").inputValue()).toBe(NOTE);
    await app.page.getByLabel("It was").fill("clean the siphon");
    await app.page.getByLabel("It was").press("Enter");
    await app.page.getByText("Clean siphon", { exact: true }).waitFor();
    expect(await tasks(app)).toEqual(["to do Clean siphon"]);
    await button(app, /^Right as it is: what “clean the siphon”/).click();
    await app.page.getByText("Found right by hand.").waitFor();
    expect((await kept(app)).at(-1)).toMatchObject({ tasks: [{ thing: { value: "siphon" } }] });
    expect(app.errors).toEqual([]);
  }));

test("targets are large, and nothing is cut off on a small phone at twice the text", () =>
  withApp({}, async (app) => {
    await app.page.setViewportSize({ width: 320, height: 640 });
    await app.startVisit();
    await app.type(`note ${NOTE}`);
    await app.page.getByRole("button", { name: "Look it over" }).click();
    await button(app, /^Change: Come back/).click();
    await app.page.locator(".task-form").waitFor();
    const small = await app.page
      .locator(".meaning button, .meaning select, .meaning input:not([type=checkbox]), .meaning label.option")
      .evaluateAll(
        (all) =>
          all
            .map((one) => one.getBoundingClientRect())
            .filter(({ width, height }) => width < 44 || height < 44).length,
      );
    expect(small).toBe(0);
    await app.page.evaluate("document.documentElement.style.fontSize = '200%'");
    const over = await app.page.evaluate("document.documentElement.scrollWidth - innerWidth");
    expect(over).toBeLessThanOrEqual(0);
  }));
