import "../../../../src/app/no-generated-code.ts";
import { decodedRows } from "../../../../src/app/own-voice/confirmed-clips.ts";
import { decodedClip } from "../../../../src/device/clips/decode.ts";
import { createClipEncoder } from "../../../../src/device/clips/encoder.ts";
import { wavClip } from "../../../../src/device/clips/wav.ts";
import { startAdapting } from "../../../../src/device/ears/offline/adapting.ts";
import { fetchBaseModel } from "../../../../src/device/spotter/assets-browser.ts";
import { createSpotter } from "../../../../src/device/spotter/listening.ts";
import { applyTaught } from "../../../../src/device/spotter/taught.ts";
import { startTeaching } from "../../../../src/device/spotter/teaching.ts";
import { madeTakes } from "../../spotter-takes.ts";

/** What the tests ask of the page: the app's own files of own voice, built as the app is and held to its policy. */
const keyWords = {
  applyTaught,
  createClipEncoder,
  createSpotter,
  decodedClip,
  decodedRows,
  fetchBaseModel,
  madeTakes,
  startAdapting,
  startTeaching,
  wavClip,
};
export type KeyWords = typeof keyWords;
Object.assign(globalThis, { keyWords });
