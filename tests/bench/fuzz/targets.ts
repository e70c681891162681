import type { Target } from "./target.ts";
import { BACKUPS } from "./targets/backups.ts";
import { FILES } from "./targets/files.ts";
import { GRAMMAR } from "./targets/grammars.ts";
import { LINES } from "./targets/lines.ts";
import { SIGNED } from "./targets/signed.ts";
import { SOUND } from "./targets/sound.ts";
import { CSV } from "./targets/tables.ts";
import { VOICES } from "./targets/voices.ts";
import { WORDS } from "./targets/words.ts";

/** Everything that reads what comes from outside. Another reader is another row. */
export const TARGETS: readonly Target[] = [
  ...FILES,
  ...LINES,
  ...BACKUPS,
  ...SIGNED,
  ...VOICES,
  ...GRAMMAR,
  ...WORDS,
  ...CSV,
  ...SOUND,
];
