import { coreCount } from "../../device/cores.ts";
import { hasOfficeStore, type OfficeStore, openOfficeStore } from "../../device/office/store.ts";
import { helperInWorkers } from "../office/helper.ts";
import { RULES } from "../office/rules.ts";
import { NOTHING_YET, type Progress } from "../office/take-in.ts";
import { once } from "../once.ts";
import type { OfficeDoor } from "./restore.ts";

const store = once(() => openOfficeStore(RULES));

/** What the office keeps on this device; null where there is no office on it. */
export async function officeHere(): Promise<OfficeStore | null> {
  return (await hasOfficeStore()) ? store() : null;
}

/** How the office takes in what was kept of it. */
export async function openOfficeDoor(): Promise<OfficeDoor> {
  const { done, ids, markDone } = await store();
  return {
    async take(files) {
      let progress: Progress = NOTHING_YET;
      await helperInWorkers(coreCount()).take(files, (told) => {
        progress = told.progress;
      });
      const { taken, refused } = progress;
      const added = taken.new + taken.newer + taken.older + taken.forked;
      return { added, same: taken.same, refused };
    },
    async markDone(marks) {
      const [here, visits] = [new Set((await done()).map(({ key }) => key)), new Set(await ids())];
      const fresh = marks.filter(({ key, visitId }) => !here.has(key) && visits.has(visitId));
      for (const mark of fresh) await markDone(mark);
      return fresh.length;
    },
  };
}
