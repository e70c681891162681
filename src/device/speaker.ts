/** The voice of the app. */
export interface Speaker {
  /** Speaks a text after those still being spoken; resolves when it is over, at once where no voice can say it. */
  speak(text: string): Promise<void>;
  /** Falls silent now; waiting texts are dropped and their promises resolve. */
  cancel(): void;
}

/** The longest that a text may hold the ear deaf, ms: some platforms never report the end of an utterance. */
function longestMs(text: string): number {
  return 3000 + 120 * text.length;
}

/**
 * A speaker over the platform's speech synthesis. It uses only voices that live on the device: a remote voice would
 * send the words to a server. Where there are none the text on the screen has to do.
 */
export function createSpeaker(
  synthesis: SpeechSynthesis | undefined = globalThis.speechSynthesis,
  lang = "en",
): Speaker {
  const waiting = new Set<() => void>();
  // Asking early makes the platform load its list of voices, which arrives later.
  synthesis?.getVoices();
  return {
    speak(text) {
      if (!synthesis || text === "") return Promise.resolve();
      const voices = synthesis.getVoices();
      const voice = localVoice(voices, lang);
      if (voices.length > 0 && !voice) return Promise.resolve();
      const utterance = new SpeechSynthesisUtterance(text);
      utterance.lang = voice?.lang ?? lang;
      if (voice) utterance.voice = voice;
      return new Promise((resolve) => {
        const over = () => {
          clearTimeout(timer);
          waiting.delete(over);
          resolve();
        };
        const timer = setTimeout(over, longestMs(text));
        waiting.add(over);
        utterance.onend = over;
        utterance.onerror = over;
        synthesis.speak(utterance);
        if (!voice) over();
      });
    },
    cancel() {
      synthesis?.cancel();
      for (const over of [...waiting]) over();
    },
  };
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
