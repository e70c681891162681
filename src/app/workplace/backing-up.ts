import { downloadBlob } from "../../device/files.ts";
import { reasonOf } from "../../device/notebook/trouble.ts";
import { hasCryptography, NO_CRYPTOGRAPHY } from "../../device/signing/sha256.ts";
import { isoDay } from "../../measure/zone.ts";
import type { BackupKind } from "../../record/backup/kind.ts";
import { BackupDesk } from "../backup/backup-desk.ts";
import type { Restoring } from "../backup/restoring.ts";
import type { Preferences } from "../preferences.ts";
import type { Signing } from "../safekeeping/signing.ts";
import type { World } from "../world.ts";

export interface BackingUpWorld extends Pick<World, "notebook" | "now" | "zone" | "breathe"> {
  readonly signing: Signing;
  readonly preferences: Preferences;
  /** Lists anew what is in the notebook. */
  readonly list: () => Promise<void>;
}

/** What makes backups and brings them back; all but the reminder is loaded when it is first asked for. */
export class BackingUp {
  readonly desk: BackupDesk;
  readonly #world: BackingUpWorld;

  constructor(world: BackingUpWorld) {
    this.#world = world;
    const { notebook, signing, breathe, now, zone } = world;
    this.desk = new BackupDesk({
      notebook,
      handOver: (id) => signing.handOver(id),
      office: async () => (await import("../backup/office-door.ts")).officeHere(),
      lacking,
      download: downloadBlob,
      breathe,
      reason: reasonOf,
      now,
      today: () => isoDay(now(), zone()),
    });
  }

  /** Begins to bring back a backup from a file. Rejects where what does it cannot be loaded. */
  async restoring(file: File, kind: BackupKind): Promise<Restoring> {
    const { notebook, signing, preferences, list, breathe, now, zone } = this.#world;
    const { Restoring } = await import("../backup/restoring.ts");
    const restoring = new Restoring(file, file.name, {
      notebook,
      examine: (visit) => signing.examine(visit),
      office: async () => (await import("../backup/office-door.ts")).openOfficeDoor(),
      settings: () => preferences.chosen.value,
      changeSettings: (change) => preferences.change(change),
      lacking,
      changed: async () => {
        await list();
        await this.desk.look();
      },
      breathe,
      reason: reasonOf,
      now,
      zone,
    });
    await restoring.open(kind);
    return restoring;
  }
}

function lacking(): string | null {
  if (!hasCryptography()) return NO_CRYPTOGRAPHY;
  return typeof CompressionStream === "undefined" ? "this browser is too old to pack files: update it" : null;
}
