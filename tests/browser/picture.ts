import { readdirSync, readFileSync } from "node:fs";
import type { App } from "./app.ts";
import { withApp } from "./app.ts";

// Makes the README's pictures from the built app: npx vite build && npx tsx tests/browser/picture.ts
const TO = "src/app/pictures";
const PHONE = { width: 390, height: 844 };
const TABLET = { width: 1024, height: 768 };
/** After the newest of the demo visits. */
const OFFICE_DAY = new Date("2026-11-26T09:00:00Z");
const DEMO = "demo-data/office";
const PRESSURE = ["static gas pressure seven inches", "dynamic gas pressure six inches"];

type Picture = readonly [
  name: string,
  size: typeof PHONE,
  theme: "light" | "dark",
  open: (app: App) => Promise<unknown>,
];

/** A visit that has come as far as this, a minute and a half from one phrase to the next. */
const visit =
  (...phrases: string[]) =>
  async (app: App) => {
    await app.page.clock.install({ time: new Date("2026-11-26T09:00:00Z") });
    await app.load();
    await app.startVisit("Demo wall-hung 35 kW, natural gas", "us");
    for (const phrase of [...PRESSURE, ...phrases]) {
      await app.page.clock.runFor(90_000);
      await app.type(phrase);
    }
  };

const PICTURES: readonly Picture[] = [
  [
    "start",
    PHONE,
    "light",
    async (app) => app.page.locator(".sheet-row", { hasText: "35 kW" }).locator("input").check(),
  ],
  ["turn", PHONE, "light", visit("okay so high fire CO2 ten point one and uh CO forty")],
  [
    "wait",
    PHONE,
    "dark",
    visit("high fire CO2 ten point one, CO forty", "high screw one turn counterclockwise"),
  ],
  ["danger", PHONE, "light", visit("room CO eighty")],
  [
    "tablet",
    TABLET,
    "light",
    visit(
      "high fire CO2 ten point one, CO forty",
      "one turn counterclockwise",
      "CO2 nine point four, CO thirty eight",
    ),
  ],
  [
    "afterwards",
    TABLET,
    "light",
    async (app) => {
      await visit(
        "high fire CO2 ten point six, CO eighty",
        "high screw one turn counterclockwise",
        "CO2 ten point two, CO sixty",
        "one turn counterclockwise",
        "CO2 nine point five, CO forty five",
        "low fire CO2 nine point three, CO twenty",
      )(app);
      await app.page.getByRole("button", { name: "Look it over" }).click();
      await app.page.locator(".phases").waitFor();
    },
  ],
  [
    "record",
    TABLET,
    "light",
    async (app) => {
      await app.page.clock.setFixedTime(OFFICE_DAY);
      await app.bringIn("visit.json", readFileSync(`${DEMO}/otterfold-mill-2026.visit.json`, "utf8"));
      await app.page
        .getByRole("button", { name: /^Visit record: / })
        .first()
        .click();
      await app.page.locator(".record-plate").waitFor();
    },
  ],
  [
    "office",
    TABLET,
    "light",
    async (app) => {
      await app.page.clock.setFixedTime(OFFICE_DAY);
      await app.page.goto(`${app.served.url}#/office`);
      await app.page.locator(".office h1").waitFor();
      const files = readdirSync(DEMO).filter((name) => name.endsWith(".json"));
      await app.page
        .locator("input[type=file][multiple]")
        .first()
        .setInputFiles(files.map((name) => `${DEMO}/${name}`));
      await app.page.getByRole("link", { name: "Appliances" }).click();
      await app.page.getByRole("link", { name: /OM-B1/ }).first().click();
      await app.page.locator("svg").first().waitFor();
    },
  ],
];

for (const [name, size, theme, open] of PICTURES)
  await withApp({}, async (app) => {
    await app.page.setViewportSize(size);
    await app.page.emulateMedia({ colorScheme: theme });
    await open(app);
    await app.page.evaluate("document.activeElement?.blur(), scrollTo(0, 0)");
    await app.page.screenshot({ path: `${TO}/${name}.png` });
  });
