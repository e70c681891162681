import { createAudio } from "../../device/audio.ts";
import { createEarcons } from "../../device/earcons.ts";
import { createSpeaker, type Speaker } from "../../device/speaker.ts";
import { synthesiseInWorker } from "../../device/voice/in-worker.ts";
import { createPackagedVoice } from "../../device/voice/packaged.ts";
import { createPlatformVoice } from "../../device/voice/platform.ts";
import { createPlayer } from "../../device/voice/player.ts";

/** The platform's voice where it is on the device, else the packaged one, fetched with its first text. */
export function createVoices(): Speaker {
  const audio = createAudio();
  const packaged = createPackagedVoice(synthesiseInWorker(), createPlayer(audio));
  return createSpeaker([createPlatformVoice(), packaged], createEarcons(audio));
}
