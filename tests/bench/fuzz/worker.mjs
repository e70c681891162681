// A thread starts without the loader of TypeScript: this is the one file that runs before it.
import { register } from "tsx/esm/api";

register();
await import("./thread.ts");
