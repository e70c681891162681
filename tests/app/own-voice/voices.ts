import { createHash } from "node:crypto";
import type { VoiceProfile } from "../../../src/device/spotter/voice-profile.ts";
import { VOICE_LAYERS, VOICE_PHONES } from "../../../src/record/voice-file.ts";

/** SHA-256 in base64url, as far as its form goes. */
export const BASE = "k".repeat(43);

/** A layer of the right size, in which each weight is another. */
function layer({ inputs, outputs }: { readonly inputs: number; readonly outputs: number }) {
  return {
    kernel: Float32Array.from({ length: inputs * outputs }, (_, at) => Math.sin(at)),
    bias: Float32Array.from({ length: outputs }, (_, at) => at / 8 - 1),
  };
}

/** A profile as one comes of a teaching; nobody's. */
export function voiceOf(change: Partial<VoiceProfile> = {}): VoiceProfile {
  return {
    id: "p1",
    name: "Ada Quill",
    taughtAt: "2026-11-26T10:00:00.000Z",
    spotter: { base: BASE, hidden: layer(VOICE_LAYERS.hidden), head: layer(VOICE_LAYERS.head) },
    gain: { heldBack: 20, rightBefore: 15, rightAfter: 19 },
    on: true,
    ...change,
  };
}

/** A profile of which phrases were learned, too. */
export function voiceWithPhones(): VoiceProfile {
  const gain = { heldBack: 12, rightBefore: 6, rightAfter: 9 };
  const learnedAt = "2026-11-26T11:00:00.000Z";
  return voiceOf({
    phones: { base: BASE, head: layer(VOICE_PHONES), gain, phrases: 40, learnedAt, on: true },
  });
}

/** The same with each array of weights as its SHA-256: comparing a hundred thousand numbers one by one takes long. */
export function brief(value: unknown): unknown {
  if (value instanceof Float32Array)
    return createHash("sha256")
      .update(Buffer.from(value.buffer, value.byteOffset, value.byteLength))
      .digest("hex");
  if (Array.isArray(value)) return value.map(brief);
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([name, each]) => [name, brief(each)]));
}
