// Draws the icons of the installed app from src/app/public/icon.svg, in Chromium: npx tsx tests/support/browser/icons.ts
import { readFile } from "node:fs/promises";
import { launchBrowser } from "./launch.ts";

const FOLDER = "src/app/public";
/** The enamel. */
const GROUND = "#f7f1e3";

/** `size`: of the picture, in pixels. `plate`: of the plate in it; what is outside may be cut to any shape. */
const ICONS = [
  { file: "icon-192.png", size: 192, plate: 192, ground: null },
  { file: "icon-512.png", size: 512, plate: 512, ground: null },
  // Everything within the circle of 80 % stays (W3C, Web Application Manifest, "Icon masks and safe zone").
  { file: "icon-maskable-512.png", size: 512, plate: 316, ground: GROUND },
  // Rounded by the system itself, and what is clear becomes black there.
  { file: "apple-touch-icon.png", size: 180, plate: 152, ground: GROUND },
];

const svg = await readFile(`${FOLDER}/icon.svg`, "utf8");
const launched = await launchBrowser();
const page = await launched.context.newPage();
for (const { file, size, plate, ground } of ICONS) {
  await page.setViewportSize({ width: size, height: size });
  await page.setContent(
    `<style>* { margin: 0 } html { background: ${ground ?? "transparent"} }
    svg { display: block; width: ${plate}px; margin: ${(size - plate) / 2}px }</style>${svg}`,
  );
  await page.screenshot({ path: `${FOLDER}/${file}`, omitBackground: ground === null });
}
await launched.close();
