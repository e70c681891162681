import "../../../../src/app/no-generated-code.ts";
import { fetchBaseModel } from "../../../../src/device/spotter/assets-browser.ts";
import { createSpotter } from "../../../../src/device/spotter/listening.ts";
import { applyTaught } from "../../../../src/device/spotter/taught.ts";
import { startTeaching } from "../../../../src/device/spotter/teaching.ts";
import { madeTakes } from "../../spotter-takes.ts";

/** What the test asks of the page: the app's own key-word files, built as the app is and held to its policy. */
const keyWords = { applyTaught, createSpotter, fetchBaseModel, madeTakes, startTeaching };
export type KeyWords = typeof keyWords;
Object.assign(globalThis, { keyWords });
