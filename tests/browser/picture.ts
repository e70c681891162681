import { withApp } from "./app.ts";

// Makes the README's picture from the built app: npx vite build && npx tsx tests/browser/picture.ts
const TO = "src/app/pictures/boiler.png";

await withApp({}, async (app) => {
  await app.page.setViewportSize({ width: 460, height: 900 });
  await app.startVisit("Demo wall-hung 35 kW, natural gas", "us");
  await app.type("static gas pressure seven inches");
  await app.type("high fire dynamic gas pressure six inches");
  await app.type("high fire CO2 ten point one, CO forty");
  await app.page.mouse.click(0, 0);
  await app.page.screenshot({ path: TO });
});
