declare module "virtual:language" {
  import type { Language } from "../meaning/network.ts";

  /** The language compiled from grammars/ when the app is built. */
  const language: Language;
  export default language;
}
