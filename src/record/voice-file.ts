import { z } from "zod";
import { Sha256Text } from "../visit/integrity.ts";
import { formatProblem } from "./format.ts";
import { outsized } from "./outsized.ts";
import { bounded } from "./problem.ts";
import { type Refused, readText } from "./read-text.ts";
import { problemsOf } from "./zod-problems.ts";

/** The layers of the key-word model that a person teaches: how many numbers go in, and come out. */
export const VOICE_LAYERS = {
  hidden: { inputs: 768, outputs: 128 },
  head: { inputs: 128, outputs: 22 },
} as const;
export type VoiceLayer = keyof typeof VOICE_LAYERS;

/** The phone model's head, which is learned of confirmed phrases. */
export const VOICE_PHONES = { inputs: 400, outputs: 40 } as const;

/** Letters of base64 for so many 32-bit floats. */
const lettersOf = (floats: number) => 4 * Math.ceil((4 * floats) / 3);

function layer({ inputs, outputs }: { readonly inputs: number; readonly outputs: number }) {
  const floats = (count: number) => z.base64().length(lettersOf(count));
  return z.strictObject({ kernel: floats(inputs * outputs), bias: floats(outputs) });
}

/** A name of a person as it may be given: one line that is not endless. */
export const VoiceName = z.string().trim().min(1).max(60);

/** Of what was held back, how much was heard right before and after. */
const VoiceGain = z
  .strictObject({
    heldBack: z.int().min(1).max(100_000),
    rightBefore: z.int().min(0),
    rightAfter: z.int().min(0),
  })
  .refine(({ heldBack, rightBefore, rightAfter }) => Math.max(rightBefore, rightAfter) <= heldBack, {
    message: "expected no more right than were held back",
  });

/** What was learned of one person's voice, as a file. */
export const VoiceFile = z.strictObject({
  format: z.literal("burnerside-voice/1"),
  name: VoiceName,
  taughtAt: z.iso.datetime({ offset: true }),
  /** On takes held back. */
  gain: VoiceGain,
  spotter: z.strictObject({
    base: Sha256Text,
    hidden: layer(VOICE_LAYERS.hidden),
    head: layer(VOICE_LAYERS.head),
  }),
  /** What the phrase recogniser learned, where it did. */
  phones: z
    .strictObject({
      base: Sha256Text,
      head: layer(VOICE_PHONES),
      gain: VoiceGain,
      phrases: z.int().min(1).max(100_000),
      learnedAt: z.iso.datetime({ offset: true }),
    })
    .optional(),
});
export type VoiceFile = z.infer<typeof VoiceFile>;

export type VoiceRead = { readonly ok: true; readonly voice: VoiceFile } | Refused;

/** Reads an own voice, at most 2 MiB of text, that may be broken or hostile. All problems are reported. */
export function readVoice(text: string): VoiceRead {
  return readText(text, "voice", voiceFrom);
}

/** `readVoice` for JSON that is read already. */
export function voiceFrom(raw: unknown): VoiceRead {
  const foreign = formatProblem(raw, "voice") ?? outsized(raw);
  if (foreign) return { ok: false, problems: [foreign] };
  const parsed = VoiceFile.safeParse(raw);
  return parsed.success
    ? { ok: true, voice: parsed.data }
    : { ok: false, problems: bounded(problemsOf(parsed.error.issues, raw)) };
}
