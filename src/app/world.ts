import type { Address } from "../device/address.ts";
import type { ClipEncoder } from "../device/clips/encoder.ts";
import type { ClipPlayer } from "../device/clips/player.ts";
import type { Notebook } from "../device/notebook/notebook.ts";
import type { OtherWindows } from "../device/other-windows.ts";
import type { Speaker } from "../device/speaker.ts";
import type { Sheet } from "../visit/sheet.ts";
import type { Installed } from "./installed/installed.ts";
import type { Mind } from "./mind.ts";
import type { Office } from "./office/office.ts";
import type { Cryptography } from "./safekeeping/signing.ts";
import type { Ears } from "./sound/ears.ts";
import type { DeskWorld } from "./start/desk.ts";

/** What the app is made of: adapters and pure functions, chosen in main.tsx. */
export interface World {
  readonly address: Address;
  readonly notebook: Notebook;
  readonly speaker: Speaker;
  readonly ears: Ears;
  /** Windows that listen tell each other: one microphone must not log a phrase twice. */
  readonly otherEars: OtherWindows;
  readonly clipEncoder: ClipEncoder;
  readonly clipPlayer: ClipPlayer;
  /** Loaded with the first visit, or the first ear; the same each time. */
  readonly mind: () => Promise<Mind>;
  /** Loaded when the office is first opened; the same each time. */
  readonly office: () => Promise<Office>;
  readonly installed: Installed;
  /** Null where the platform has none; the same each time. */
  readonly cryptography: () => Promise<Cryptography | null>;
  readonly now: () => string;
  readonly zone: () => string | null;
  readonly newId: () => string;
  /** A pause between pieces of long work. */
  readonly breathe: () => Promise<void>;
  readonly demoSheets: readonly Sheet[];
  /** What a sentence on the start page means. */
  readonly start: Pick<DeskWorld, "means" | "choose">;
}
