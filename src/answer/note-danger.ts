/** What in a note may be a danger that is there now, and what to say then: a note itself stops nothing. */
const DANGERS: readonly (readonly [RegExp, string])[] = [
  [
    /\b(?:smell\w*|stink\w*|whiff|odou?rs?) (?:of |like )?gas\b|\bgas (?:smell|leak|odou?r)/i,
    "if you smell it now, say I smell gas",
  ],
  [
    /\b(?:C\.?\s?O|carbon monoxide|monoxide) (?:alarm|detector)\b/i,
    "if it sounds now, say the C O alarm is going off",
  ],
];

/** What has to be said with a note that names a danger; "" for any other. */
export function noteDanger(text: string): string {
  return DANGERS.find(([pattern]) => pattern.test(text))?.[1] ?? "";
}
