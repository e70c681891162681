import { z } from "zod";
import { sha256OfBytes } from "../signing/sha256.ts";
import { type BaseModel, bytesOfSpec, type WeightSpec } from "./base.ts";
import { CLASSES } from "./words.ts";

const Spec: z.ZodType<WeightSpec> = z.object({
  name: z.string(),
  shape: z.array(z.int().min(1)),
  dtype: z.literal("float32"),
  quantization: z
    .object({ dtype: z.literal("float16") })
    .or(z.object({ dtype: z.enum(["uint16", "uint8"]), scale: z.number(), min: z.number() }))
    .optional(),
});
const ModelFile = z.object({
  format: z.literal("layers-model"),
  modelTopology: z.record(z.string(), z.unknown()),
  weightsManifest: z.array(z.object({ weights: z.array(Spec) })).length(1),
});
const MetadataFile = z.object({ tfjsSpeechCommandsVersion: z.string(), wordLabels: z.array(z.string()) });

/** The model's files in the library's own format: `model.json`, `metadata.json` and `weights.bin`. */
export interface SpotterFiles {
  readonly model: string;
  readonly metadata: string;
  readonly weights: Uint8Array<ArrayBuffer>;
}

/** @throws (rejects) naming the file and what was expected of it: of another format, other words, half a download */
export async function readBase(files: SpotterFiles): Promise<BaseModel> {
  const { modelTopology, weightsManifest } = read(ModelFile, "model.json", files.model);
  const { wordLabels } = read(MetadataFile, "metadata.json", files.metadata);
  if (wordLabels.join() !== CLASSES.join()) {
    throw new Error(`The key words' metadata.json: expected the words ${CLASSES.join(", ")}.`);
  }
  const specs = weightsManifest.flatMap(({ weights }) => weights);
  const bytes = specs.reduce((sum, spec) => sum + bytesOfSpec(spec), 0);
  if (bytes !== files.weights.length) {
    throw new Error(`The key words' weights.bin: expected ${bytes} bytes, found ${files.weights.length}.`);
  }
  return {
    topology: modelTopology,
    specs,
    weights: files.weights,
    hash: await sha256OfBytes(files.weights),
  };
}

function read<T>(schema: z.ZodType<T>, file: string, text: string): T {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    throw new Error(`The key words' ${file} is no JSON.`);
  }
  const parsed = schema.safeParse(value);
  if (parsed.success) return parsed.data;
  const [first] = parsed.error.issues;
  throw new Error(`The key words' ${file}: ${first?.path.join(".")}: ${first?.message}.`);
}
