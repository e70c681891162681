/** The words that a number is made of when it is spoken, parts of a turn among them. */
export const NUMBER_WORDS: readonly string[] = (
  "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen " +
  "eighteen nineteen twenty thirty forty fifty sixty seventy eighty ninety hundred thousand point minus half halves " +
  "third thirds quarter quarters eighth eighths tenth tenths"
).split(" ");

export function isNumberWord(word: string): boolean {
  return NUMBER_WORDS.includes(word);
}

/** The words of a text that is only letters and pauses, as spokenText makes it. */
export function wordsOf(text: string): string[] {
  return text.toLowerCase().match(/[\p{L}']+/gu) ?? [];
}
