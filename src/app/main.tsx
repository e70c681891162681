import language from "virtual:language/parser";
import { render } from "preact";
import { contextOf } from "../answer/context.ts";
import { standing, takeAmendment, takeTurn } from "../answer/turn.ts";
import { createAddress } from "../device/address.ts";
import { createBreather } from "../device/breather.ts";
import { createClipEncoder } from "../device/clips/encoder.ts";
import { createClipPlayer } from "../device/clips/player.ts";
import { now, zone } from "../device/clock.ts";
import { newId } from "../device/ids.ts";
import { createMediaButton } from "../device/media-button.ts";
import { openNotebook } from "../device/notebook.ts";
import { choose } from "../meaning/choose.ts";
import { createParser } from "../meaning/parser.ts";
import { steers } from "../meaning/steers.ts";
import { demoSheets } from "./demo-sheets.ts";
import { createEars } from "./ears.ts";
import { hangOnButton } from "./headset.ts";
import { READERS } from "./readers.ts";
import { Broken } from "./screens/broken.tsx";
import { Screen } from "./screens/screen.tsx";
import { hangTheme } from "./theme.ts";
import { createVoices } from "./voices.ts";
import { Workplace } from "./workplace.ts";
import "./styles/plate.css";
import "./styles/start.css";
import "./styles/boiler.css";
import "./styles/face.css";
import "./styles/trace.css";
import "./styles/afterwards.css";

const root = document.getElementById("app");
if (!root) throw new Error("index.html has no element with the id app");

try {
  const parser = createParser(language);
  const workplace = new Workplace({
    address: createAddress(),
    notebook: await openNotebook(READERS),
    speaker: createVoices(),
    ears: createEars(),
    clipEncoder: createClipEncoder(),
    clipPlayer: createClipPlayer(),
    understanding: {
      choose: (utterance) => choose(utterance, (text) => parser.parse(text)),
      steers: (text) => steers(parser.parse(text)),
    },
    take: (visit, phrase, at, talk, asked) => takeTurn(parser, visit, phrase, at, newId, talk, asked),
    amend: (visit, amendment, at, talk) => takeAmendment(parser, visit, amendment, at, newId, talk),
    stand: standing,
    parse: (text) => parser.parse(text),
    understand: (text, before) => parser.understood(text, contextOf(before)),
    now,
    zone,
    newId,
    breathe: createBreather(),
    demoSheets: demoSheets(),
  });
  hangOnButton(workplace, createMediaButton);
  hangTheme(workplace);
  await workplace.open();
  render(<Screen workplace={workplace} />, root);
} catch (error) {
  const reason = error instanceof Error ? error.message : String(error);
  render(<Broken message={`Burnerside cannot start. ${reason}`} />, root);
}
