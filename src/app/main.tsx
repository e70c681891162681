import "./no-generated-code.ts";
import startLanguage from "virtual:language/start";
import { render } from "preact";
import { createAddress } from "../device/address.ts";
import { createAheadCache } from "../device/ahead-cache.ts";
import { createBreather } from "../device/breather.ts";
import { createClipEncoder } from "../device/clips/encoder.ts";
import { createClipPlayer } from "../device/clips/player.ts";
import { after, every, now, painted, zone } from "../device/clock.ts";
import { isUsedHere } from "../device/ears/offline/engine.ts";
import { readJsonFile } from "../device/files.ts";
import { newId } from "../device/ids.ts";
import { createInstallation } from "../device/installation.ts";
import { createMediaButton } from "../device/media-button.ts";
import { openNotebook } from "../device/notebook/notebook.ts";
import { reasonOf } from "../device/notebook/trouble.ts";
import { createOtherWindows } from "../device/other-windows.ts";
import { hasCryptography } from "../device/signing/sha256.ts";
import { keepForGood, storageKept, storageUse } from "../device/storage.ts";
import { createTabLock } from "../device/tab-lock.ts";
import { createWakeLock } from "../device/wake-lock.ts";
import { chooseStart, startMeaning } from "../meaning/start.ts";
import { Installed } from "./installed/installed.ts";
import { LINKING } from "./linking.ts";
import { once } from "./once.ts";
import { READERS } from "./readers.ts";
import { Broken } from "./screens/broken.tsx";
import { loadBoiler, Screen } from "./screens/screen.tsx";
import { demoSheets } from "./sheets/demo-sheets.ts";
import { createEars } from "./sound/ears.ts";
import { hangOnButton } from "./sound/headset.ts";
import { createVoices } from "./sound/voices.ts";
import { hangTheme } from "./theme.ts";
import { showVisibly } from "./visible-text.ts";
import { Workplace } from "./workplace.ts";
import "./styles/plate.css";
import "./styles/fields.css";
import "./styles/start.css";
import "./styles/sheets.css";
import "./styles/welcome.css";
import "./styles/boiler.css";
import "./styles/face.css";
import "./styles/trace.css";
import "./styles/device.css";
import "./styles/afterwards.css";

/** So long after the first screen the rest is loaded, ms. */
const FIRST_MS = 300;

/** How often a newer version is looked for while the app stays open. */
const LOOK_MS = 60 * 60 * 1000;

const BLOCKED =
  "Another window of this browser holds the notebook for an older version of Burnerside. Close that window: this one then goes on by itself.";

/** Reads the notebook and shows the screen; then loads what the first screen does without. */
async function start(root: Element): Promise<void> {
  const mind = once(async () => (await import("./mind.ts")).createMind());
  const office = once(async () => (await import("./office/create.ts")).createOffice());
  const cryptography = once(async () =>
    hasCryptography() ? (await import("./safekeeping/cryptography.ts")).CRYPTOGRAPHY : null,
  );
  const installed = new Installed({
    cache: createAheadCache(),
    // With a query it is none of the files that the service worker keeps.
    list: (which) => readJsonFile(which === "this" ? "./ahead.json" : `./ahead.json?${newId()}`),
    isUsed: isUsedHere,
    reason: reasonOf,
    installation: createInstallation(),
    wakeLock: createWakeLock(),
    visitLock: createTabLock("burnerside-visit"),
    storageUse,
    storageKept,
    keepForGood,
    nowAndThen: (tick) => void every(LOOK_MS, tick),
  });
  const workplace = new Workplace({
    address: createAddress(),
    notebook: await openNotebook(READERS, LINKING, "burnerside", () =>
      render(<Broken message={BLOCKED} />, root),
    ),
    speaker: createVoices(),
    ears: createEars(),
    otherEars: createOtherWindows("burnerside-ear"),
    clipEncoder: createClipEncoder(),
    clipPlayer: createClipPlayer(),
    mind,
    office,
    installed,
    cryptography,
    now,
    zone,
    newId,
    breathe: createBreather(),
    demoSheets: demoSheets(),
    start: {
      means: (text) => startMeaning(startLanguage.piece, text),
      choose: (utterance) => chooseStart(startLanguage.piece, utterance),
    },
  });
  installed.watch(workplace.visitRuns, workplace.isWatched);
  hangOnButton(workplace, createMediaButton);
  hangTheme(workplace);
  await workplace.open();
  render(<Screen workplace={workplace} />, root);
  // What the first screen does without is on its way before it is asked for; failing that, it is tried again then. A tap on
  // what has just come up goes first.
  await painted();
  await new Promise<void>((resolve) => after(FIRST_MS, resolve));
  await Promise.allSettled([mind(), loadBoiler()]);
  if (import.meta.env.PROD) void installed.start();
}

showVisibly();
const root = document.getElementById("app");
if (!root) throw new Error("index.html has no element with the id app");
// Not awaited: what is loaded later imports from here, and would wait for this to end.
start(root).catch((error: unknown) => {
  const reason = error instanceof Error ? error.message : String(error);
  render(<Broken message={`Burnerside cannot start. ${reason}`} />, root);
});
