import type { EncodeReply, EncodeRequest } from "./encoder.ts";
import { opusClip } from "./opus.ts";

/** The encoder off the page's thread: one answer on its own port for each request. */
self.addEventListener("message", async ({ data: { sound, reply } }: MessageEvent<EncodeRequest>) => {
  const clip: EncodeReply = await opusClip(sound).catch(() => null);
  reply.postMessage(clip, clip ? [clip.data] : []);
  reply.close();
});
