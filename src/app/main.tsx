import { render } from "preact";
import { createAddress } from "../device/address.ts";
import { createClipEncoder } from "../device/clips/encoder.ts";
import { createClipPlayer } from "../device/clips/player.ts";
import { now, painted, zone } from "../device/clock.ts";
import { newId } from "../device/ids.ts";
import { createMediaButton } from "../device/media-button.ts";
import { openNotebook } from "../device/notebook.ts";
import { demoSheets } from "./demo-sheets.ts";
import { createEars } from "./ears.ts";
import { hangOnButton } from "./headset.ts";
import { once } from "./once.ts";
import { READERS } from "./readers.ts";
import { Broken } from "./screens/broken.tsx";
import { loadScreens, Screen } from "./screens/screen.tsx";
import { hangTheme } from "./theme.ts";
import { createVoices } from "./voices.ts";
import { Workplace } from "./workplace.ts";
import "./styles/plate.css";
import "./styles/start.css";
import "./styles/boiler.css";
import "./styles/face.css";
import "./styles/trace.css";

const root = document.getElementById("app");
if (!root) throw new Error("index.html has no element with the id app");

try {
  const mind = once(async () => (await import("./mind.ts")).createMind());
  const workplace = new Workplace({
    address: createAddress(),
    notebook: await openNotebook(READERS),
    speaker: createVoices(),
    ears: createEars(),
    clipEncoder: createClipEncoder(),
    clipPlayer: createClipPlayer(),
    mind,
    now,
    zone,
    newId,
    demoSheets: demoSheets(),
  });
  hangOnButton(workplace, createMediaButton);
  hangTheme(workplace);
  await workplace.open();
  render(<Screen workplace={workplace} />, root);
  // What the first screen does without is on its way before it is asked for; failing that, it is tried again then.
  await painted();
  void Promise.allSettled([mind(), loadScreens()]);
} catch (error) {
  const reason = error instanceof Error ? error.message : String(error);
  render(<Broken message={`Burnerside cannot start. ${reason}`} />, root);
}
