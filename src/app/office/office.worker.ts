import "../no-generated-code.ts";
import { createBreather } from "../../device/breather.ts";
import { now } from "../../device/clock.ts";
import { reasonOf } from "../../device/notebook/trouble.ts";
import { handedFile } from "../../device/office/files.ts";
import { type OfficeStore, openOfficeStore } from "../../device/office/store.ts";
import { hasCryptography } from "../../device/signing/sha256.ts";
import { workbookBytes } from "../../device/workbook.ts";
import { type Finding, UNLINKED } from "../../record/integrity/finding.ts";
import type { Visit } from "../../visit/visit.ts";
import { once } from "../once.ts";
import { CRYPTOGRAPHY } from "../safekeeping/cryptography.ts";
import { exported } from "./exports.ts";
import { judged } from "./judged.ts";
import type { FromOffice, ToOffice } from "./messages.ts";
import { RULES, visitOf } from "./rules.ts";
import { takeIn } from "./take-in.ts";

// Off the page's thread: files are read, validated, judged and stored, and exports are made, while the page answers.

const store = once((): Promise<OfficeStore> => openOfficeStore(RULES));
let stopped = false;

const tell = (message: FromOffice): void => self.postMessage(message);

self.addEventListener("message", async ({ data }: MessageEvent<ToOffice>) => {
  if (data.kind === "stop") {
    stopped = true;
    return;
  }
  try {
    await work(data);
  } catch (error) {
    tell({ kind: "failed", reason: reasonOf(error) });
  }
});

async function work(asked: Exclude<ToOffice, { readonly kind: "stop" }>): Promise<void> {
  switch (asked.kind) {
    case "take":
      return take(asked.files);
    case "judge-anew":
      await (await store()).judgeAnew(asked.ids);
      tell({ kind: "judged-anew" });
      return;
    case "export": {
      const world = { store: await store(), visitOf, now, workbookBytes };
      tell({ kind: "exported", file: await exported(asked.what, asked.ids, world) });
    }
  }
}

async function take(files: readonly File[]): Promise<void> {
  stopped = false;
  const { keep, ids, has } = await store();
  // Asked once: of a visit that is new nothing has to be looked up.
  const known = new Set(await ids());
  const ended = await takeIn(files.map(handedFile), {
    judged: (name, bytes, at) =>
      judged(name, bytes, at, async (id, text) => known.has(id) && (await has(id, text)), found),
    keep,
    now,
    breathe: createBreather(),
    isStopped: () => stopped,
    tell: (told) => tell({ kind: "told", told }),
  });
  tell({ kind: "taken", stopped: ended });
}

/** What can be said of a visit's log; null where the page came over plain http, and there is no cryptography. */
async function found(visit: Visit): Promise<Finding | null> {
  if (!visit.integrity) return UNLINKED;
  return hasCryptography() ? CRYPTOGRAPHY.examine(visit, createBreather()) : null;
}
