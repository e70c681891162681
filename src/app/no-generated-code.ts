import { z } from "zod";

// Imported before any other file: zod would try, as it is first used, whether it may make code of text. It may not here
// (src/cli/policy.ts), and each try would be reported.
z.config({ jitless: true });
