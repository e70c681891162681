/**
 * The parts of the Web Speech API that we use, as the drafts describe them (WICG speech-api, Community Group Draft).
 * TypeScript has no types for the newer ones, and browsers offer different subsets: all but the basics are optional.
 */
export interface PlatformAlternative {
  readonly transcript: string;
  readonly confidence: number;
}

export interface PlatformResult {
  readonly isFinal: boolean;
  readonly length: number;
  readonly [index: number]: PlatformAlternative;
}

export interface PlatformResultEvent {
  readonly resultIndex: number;
  readonly results: { readonly length: number; readonly [index: number]: PlatformResult };
}

export interface PlatformErrorEvent {
  readonly error: string;
}

export interface PlatformPhrase {
  readonly phrase: string;
  readonly boost: number;
}

export interface PlatformRecognition {
  lang: string;
  continuous: boolean;
  interimResults: boolean;
  maxAlternatives: number;
  processLocally?: boolean;
  phrases?: PlatformPhrase[];
  onstart: (() => void) | null;
  onend: (() => void) | null;
  onresult: ((event: PlatformResultEvent) => void) | null;
  onerror: ((event: PlatformErrorEvent) => void) | null;
  start(): void;
  abort(): void;
}

export interface PlatformLanguages {
  readonly langs: readonly string[];
  readonly processLocally: boolean;
}

export interface PlatformRecognitionClass {
  new (): PlatformRecognition;
  available?(
    options: PlatformLanguages,
  ): Promise<"unavailable" | "downloadable" | "downloading" | "available">;
  install?(options: PlatformLanguages): Promise<boolean>;
}

/** What a browser's window may have. */
export interface PlatformScope {
  readonly SpeechRecognition?: PlatformRecognitionClass;
  readonly webkitSpeechRecognition?: PlatformRecognitionClass;
  readonly SpeechRecognitionPhrase?: new (phrase: string, boost: number) => PlatformPhrase;
}
