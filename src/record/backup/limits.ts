const MIB = 1024 * 1024;

/** What a backup may hold at most: far more than a device has, and little enough that a hostile file ends soon. */
export const BACKUP_LIMITS = {
  /** Bytes of one line: a visit bundle of the largest size (32 MiB), and what is written around it. */
  line: 33 * MIB,
  lines: 1_000_000,
  /** Bytes of all lines together, unpacked. */
  total: 1024 * MIB,
  /** Letters of one sound clip in base64: over four minutes of 16 kHz, 16 bit. */
  clip: 11 * MIB,
} as const;

/** Bytes of a line by its kind, where that may have fewer. */
export const LINE_LIMITS: Readonly<Partial<Record<string, number>>> = {
  head: MIB,
  settings: MIB,
  sheet: 2 * MIB,
  clip: 12 * MIB,
  "office-done": MIB,
  end: 4 * MIB,
};

/** So many lines that are none of a backup, before any that is one, and it is taken for something else. */
export const LINES_OF_SOMETHING_ELSE = 20;
