import type { Linking } from "../device/notebook/linker.ts";
import { hasCryptography, sha256 } from "../device/signing/sha256.ts";
import { headLink, nextLink } from "../record/integrity/chain.ts";

/** How the notebook links logs; null on a page that came over plain http, where the platform has no cryptography. */
export const LINKING: Linking | null = hasCryptography()
  ? {
      head: (head) => headLink(head, sha256),
      next: (previous, entry) => nextLink(previous, entry, sha256),
    }
  : null;
