/** The language compiled from grammars/ when the app is built, in three parts; the parser's folded and packed. */
declare module "virtual:language/parser" {
  const language: import("../meaning/packed.ts").PackedLanguage;
  export default language;
}

declare module "virtual:language/ear" {
  const language: import("../meaning/network.ts").EarLanguage;
  export default language;
}

declare module "virtual:language/start" {
  const language: import("../meaning/network.ts").StartLanguage;
  export default language;
}
