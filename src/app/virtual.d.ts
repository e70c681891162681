/** The language compiled from grammars/ when the app is built, in three parts. */
declare module "virtual:language/parser" {
  const language: import("../meaning/network.ts").ParserLanguage;
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
