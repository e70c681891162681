import "./no-frames.ts";
import { startSpotterEngine } from "./engine-browser.ts";
import { gainOf } from "./gain.ts";
import { applyTaught } from "./taught.ts";
import { teachSpotter } from "./teach.ts";
import type { FromTeacher, TeachRequest } from "./teaching.ts";

/** Teaches off the page's thread; it is ended from outside. */
const tell = (message: FromTeacher): void => self.postMessage(message);

self.addEventListener("message", ({ data }: MessageEvent<TeachRequest>) => {
  taught(data).then(tell, (error: unknown) =>
    tell({ kind: "failed", reason: error instanceof Error ? error.message : String(error) }),
  );
});

async function taught({ base, takes, heldBack, options }: TeachRequest): Promise<FromTeacher> {
  await startSpotterEngine();
  const learned = await teachSpotter(base, takes, options, (fraction) =>
    tell({ kind: "progress", fraction }),
  );
  const applied = applyTaught(base, learned);
  if (!applied.ok) throw new Error(`What was learned does not fit (${applied.refusal.kind}).`);
  const gain = heldBack.length > 0 ? await gainOf(base, applied.model, heldBack) : null;
  return { kind: "taught", taught: learned, gain };
}
