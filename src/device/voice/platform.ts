import type { Voice } from "./voice.ts";

/** How long after the start a platform may take to tell its voices, ms. */
const LISTING_MS = 1500;

/** The longest that a text may take, ms: some platforms never report the end of an utterance. */
function longestMs(text: string): number {
  return 3000 + 120 * text.length;
}

/**
 * The platform's speech synthesis. It uses only voices that live on the device: a remote voice would send the words to a
 * server, and so may a platform that does not tell its voices.
 */
export function createPlatformVoice(
  synthesis: SpeechSynthesis | undefined = globalThis.speechSynthesis,
  lang = "en",
): Voice {
  // Asking early makes the platform load its list of voices, which arrives later.
  const listed = synthesis ? whenListed(synthesis) : Promise.resolve();
  const speaking = new Set<() => void>();
  return {
    async say(text) {
      if (!synthesis) return false;
      let cut = false;
      const silence = () => {
        cut = true;
      };
      speaking.add(silence);
      await listed;
      speaking.delete(silence);
      if (cut) return true;
      const voice = localVoice(synthesis.getVoices(), lang);
      if (!voice) return false;
      return new Promise((resolve) => {
        const utterance = new SpeechSynthesisUtterance(text);
        utterance.lang = voice.lang;
        utterance.voice = voice;
        const over = (said = true) => {
          clearTimeout(timer);
          speaking.delete(over);
          resolve(said);
        };
        const timer = setTimeout(over, longestMs(text));
        speaking.add(over);
        utterance.onend = () => over();
        utterance.onerror = ({ error }) => over(error === "canceled" || error === "interrupted");
        synthesis.speak(utterance);
      });
    },
    cancel() {
      synthesis?.cancel();
      for (const over of [...speaking]) over();
    },
  };
}

function whenListed(synthesis: SpeechSynthesis): Promise<void> {
  if (synthesis.getVoices().length > 0) return Promise.resolve();
  return new Promise((resolve) => {
    synthesis.addEventListener("voiceschanged", () => resolve(), { once: true });
    setTimeout(resolve, LISTING_MS);
  });
}

/** The platform's default among the voices of a language that are on the device, else the first of them. */
export function localVoice(
  voices: readonly SpeechSynthesisVoice[],
  lang: string,
): SpeechSynthesisVoice | undefined {
  const own = voices.filter(
    (voice) => voice.localService && voice.lang.toLowerCase().startsWith(lang.toLowerCase()),
  );
  return own.find((voice) => voice.default) ?? own[0];
}
