/** What the screen shows of the key words. */
export type KeyWordsState =
  | { readonly kind: "off" }
  | { readonly kind: "loading" }
  | { readonly kind: "listening" }
  /** One sentence; the recogniser goes on. */
  | { readonly kind: "problem"; readonly message: string };
