import { now, zone } from "../../device/clock.ts";
import { coreCount } from "../../device/cores.ts";
import { downloadBlob } from "../../device/files.ts";
import { reasonOf } from "../../device/notebook/trouble.ts";
import { openOfficeStore } from "../../device/office/store.ts";
import { isoDay } from "../../measure/zone.ts";
import { helperInWorkers } from "./helper.ts";
import { Office } from "./office.ts";
import { RULES, visitOf } from "./rules.ts";

/** The office with its store and its worker. Rejects where the browser gives no storage. */
export async function createOffice(): Promise<Office> {
  return new Office({
    store: await openOfficeStore(RULES),
    helper: helperInWorkers(coreCount()),
    now,
    today: () => isoDay(now(), zone()),
    visitOf,
    download: downloadBlob,
    reason: reasonOf,
  });
}
