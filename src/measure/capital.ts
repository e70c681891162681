/** The same words with a large first letter: "static gas pressure" begins a sentence. */
export function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
