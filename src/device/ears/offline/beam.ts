import type { Chances } from "./acoustic.ts";
import type { PhoneGraph } from "./graph.ts";
import { type Ranked, ranked, type Step, type Trail } from "./trail.ts";

export interface BeamTuning {
  /** How strongly the grammar's own weights count against the acoustic scores. */
  readonly grammarWeight: number;
  /** Cost of a word, nats. */
  readonly wordCost: number;
  /** Cost of a phone of other speech before the first word, nats. */
  readonly otherCost: number;
  /** What falls this far behind the best is given up, nats. */
  readonly width: number;
}

export interface Found {
  /** The best ways through the grammar, best first; none where no way ends with the sound. */
  readonly ways: readonly Ranked[];
  /** Nats of the best phone or blank in each step, summed up to each step: what free speech would score. */
  readonly free: Float64Array;
  /** Whether each step begins a phone when nothing but the sound decides. */
  readonly begins: Uint8Array;
}

/** More than there are phones: entries are told apart by node, and by phone where one is barred. */
const PHONE_KEYS = 64;
/** Ways kept at a node; their words differ. */
const KEPT = 6;
const NOWHERE = Number.NEGATIVE_INFINITY;

/**
 * Token passing (Young, Russell, Thornton 1989) over a connectionist model's phones and blanks (Graves 2006): between
 * two phones of a word a blank may stand, at a node any number of them. Inside a word one way survives, at a node several,
 * from which the rivals are read back.
 */
export function createBeam(graph: PhoneGraph, tuning: BeamTuning): (chances: Chances, most: number) => Found {
  const size = graph.phones.length;
  const entering = Float64Array.from(graph.arcs, ({ logp }) => tuning.grammarWeight * logp - tuning.wordCost);
  /** Where a phone follows its like: only over a blank. */
  const repeats = graph.phones.map((one, at) => (graph.phones[at - 1] === one ? 1 : 0));
  const lastPhone = graph.arcs.map(({ first, length }) => graph.phones[first + length - 1]);
  // One value per position: the way that is in its phone now, and the way in the blank after it.
  const phone = new Float64Array(size);
  const pause = new Float64Array(size);
  /** Which entry (index into `entries`) each of them came in by. */
  const phoneEntry = new Int32Array(size);
  const pauseEntry = new Int32Array(size);
  /** The best value in each word's phones at this step. */
  const tops = new Float64Array(graph.arcs.length);

  return ({ steps, symbols, logs }, most) => {
    phone.fill(NOWHERE);
    pause.fill(NOWHERE);
    const { free, begins } = freeSpeech(steps, symbols, logs);
    const blank = symbols - 1;
    /** Where ways came into words: from which trails, with what score, before which step. */
    const entries: { before: readonly Trail[]; score: number; step: number }[] = [];
    const at: (Trail[] | undefined)[] = new Array(graph.nodes);
    const live = new Set<number>();
    let active: number[] = [];
    const wanted = new Uint8Array(graph.arcs.length);
    /** Blanks summed up so far, and other speech. */
    let blanks = 0;
    let other = 0;
    let best = 0;

    const arrive = (node: number, trail: Trail): void => {
      const kept = at[node];
      if (!kept) live.add(node);
      at[node] = withTrail(kept ?? [], trail);
      for (const { to, logp } of graph.empty[node] ?? []) {
        arrive(to, { ...trail, score: trail.score + tuning.grammarWeight * logp });
      }
    };
    arrive(graph.start, { step: null, hash: 0, score: 0 });

    for (let now = 0; now < steps; now++) {
      const row = now * symbols;
      const blanksBefore = blanks;
      const threshold = best - tuning.width;
      // Into the words: from every node that is still near the best.
      const next: number[] = active;
      for (const node of live) {
        const trails = at[node];
        const score = (trails?.[0]?.score ?? NOWHERE) + blanks;
        if (!trails || score < threshold) {
          if (node !== graph.start && node !== graph.end) {
            live.delete(node);
            at[node] = undefined;
          }
          continue;
        }
        for (const arc of graph.leaving[node] ?? []) {
          if (wanted[arc] || score + (entering[arc] ?? 0) < threshold) continue;
          wanted[arc] = 1;
          next.push(arc);
        }
      }
      const entryOf = new Map<number, number>();
      /** The entry from a node into a word that begins with a phone; undefined where no way leads in now. */
      const enter = (node: number, first: number): number | undefined => {
        const all = at[node] ?? [];
        // Of two like phones in a row each is heard only with a blank between them.
        const runsOn = ({ step }: Trail): boolean => step?.end === now && lastPhone[step.arc] === first;
        const before = all.some(runsOn) ? all.filter((trail) => !runsOn(trail)) : all;
        const [best] = before;
        if (!best) return undefined;
        const key = before === all ? node * PHONE_KEYS : node * PHONE_KEYS + 1 + first;
        const known = entryOf.get(key);
        if (known !== undefined) return known;
        entryOf.set(key, entries.length);
        return entries.push({ before, score: best.score + blanksBefore, step: now }) - 1;
      };
      // Through the phones, last position first, so that each still sees the values of the step before.
      const silence = logs[row + blank] ?? NOWHERE;

      blanks += silence;
      let top = NOWHERE;
      for (const index of next) {
        const arc = graph.arcs[index];
        if (!arc) continue;
        const entry = at[arc.from] ? enter(arc.from, graph.phones[arc.first] ?? 0) : undefined;
        let arcTop = NOWHERE;
        for (let position = arc.first + arc.length - 1; position >= arc.first; position--) {
          const here = phone[position] ?? NOWHERE;
          const quiet = pause[position] ?? NOWHERE;
          let score = here;
          let origin = phoneEntry[position] ?? 0;
          if (position > arc.first) {
            const beforePhone = phone[position - 1] ?? NOWHERE;
            const beforePause = pause[position - 1] ?? NOWHERE;
            if (beforePhone > score && !repeats[position]) {
              score = beforePhone;
              origin = phoneEntry[position - 1] ?? 0;
            }
            if (beforePause > score) {
              score = beforePause;
              origin = pauseEntry[position - 1] ?? 0;
            }
          } else if (entry !== undefined) {
            const entered = (entries[entry]?.score ?? NOWHERE) + (entering[index] ?? 0);
            if (entered > score) {
              score = entered;
              origin = entry;
            }
          }
          if (here > quiet) {
            pause[position] = here + silence;
            pauseEntry[position] = phoneEntry[position] ?? 0;
          } else pause[position] = quiet + silence;
          score += logs[row + (graph.phones[position] ?? 0)] ?? NOWHERE;
          phone[position] = score;
          phoneEntry[position] = origin;
          arcTop = Math.max(arcTop, score, pause[position] ?? NOWHERE);
        }
        tops[index] = arcTop;
        if (arcTop > top) top = arcTop;
      }
      for (const node of live) top = Math.max(top, (at[node]?.[0]?.score ?? NOWHERE) + blanks);
      best = top;
      const floor = best - tuning.width;
      const still: number[] = [];
      for (const index of next) {
        const arc = graph.arcs[index];
        if (!arc) continue;
        if ((tops[index] ?? NOWHERE) < floor) {
          phone.fill(NOWHERE, arc.first, arc.first + arc.length);
          pause.fill(NOWHERE, arc.first, arc.first + arc.length);
          wanted[index] = 0;
          continue;
        }
        still.push(index);
        const last = arc.first + arc.length - 1;
        const done = phone[last] ?? NOWHERE;
        const from = entries[phoneEntry[last] ?? 0];
        if (done < floor || !from) continue;
        const step: Step = {
          word: arc.word,
          arc: index,
          phones: arc.length,
          start: from.step,
          end: now + 1,
          heard: done - from.score - (entering[index] ?? 0),
          before: from.before,
        };
        const hash = (Math.imul(from.before[0]?.hash ?? 0, 31) + wordHash(arc.word)) | 0;
        arrive(arc.to, { step, hash, score: done - blanks });
      }
      active = still;
      // Other speech before the first word. None after the last: it might be the rest of a number.
      const cost = begins[now] ? tuning.otherCost : 0;
      other += (free[now + 1] ?? 0) - (free[now] ?? 0) - cost;
      if (other > blanks) arrive(graph.start, { step: null, hash: 0, score: other - blanks });
    }

    const ends = (at[graph.end] ?? [])
      .filter(({ step }) => step !== null)
      .map((trail) => ({ ...trail, score: trail.score + blanks }));
    return { ways: ranked(ends, most), free, begins };
  };
}

/** A trail more, at its place; of two with the same words the better, and only the best few. */
function withTrail(kept: readonly Trail[], trail: Trail): Trail[] {
  const rival = kept.find(({ hash }) => hash === trail.hash);
  if (rival && rival.score >= trail.score) return kept as Trail[];
  const others = rival ? kept.filter((one) => one !== rival) : kept;
  const place = others.findIndex(({ score }) => score < trail.score);
  const cut = place < 0 ? others.length : place;
  return [...others.slice(0, cut), trail, ...others.slice(cut)].slice(0, KEPT);
}

function wordHash(word: string): number {
  let hash = 17;
  for (let at = 0; at < word.length; at++) hash = (Math.imul(hash, 33) + word.charCodeAt(at)) | 0;
  return hash;
}

function freeSpeech(
  steps: number,
  symbols: number,
  logs: Float32Array,
): { free: Float64Array; begins: Uint8Array } {
  const free = new Float64Array(steps + 1);
  const begins = new Uint8Array(steps);
  let before = symbols - 1;
  for (let step = 0; step < steps; step++) {
    let top = symbols - 1;
    const row = step * symbols;
    for (let symbol = 0; symbol < symbols; symbol++) {
      if ((logs[row + symbol] ?? NOWHERE) > (logs[row + top] ?? NOWHERE)) top = symbol;
    }
    free[step + 1] = (free[step] ?? 0) + (logs[row + top] ?? NOWHERE);
    begins[step] = top !== before && top !== symbols - 1 ? 1 : 0;
    before = top;
  }
  return { free, begins };
}
