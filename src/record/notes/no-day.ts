/** Words that say when without naming a day. UTF-16 units. */
export interface NoDay {
  readonly from: number;
  readonly to: number;
}

const TOWARDS = "(?:before|after|by|in|during|until|till|for|at|over|towards?)";
const SEASON =
  "(?:(?:the |this |next |coming |heating |winter |summer |holiday )*(?:heating season|season|winter|summer|spring|autumn|holidays|frost|cold weather|warm weather|christmas|easter|new year))";
const MONTH = "(?:january|february|march|april|may|june|july|august|september|october|november|december)";
const PERIOD = "(?:week|month|year|weekend|quarter|season)";

const FORMS: readonly RegExp[] = [
  new RegExp(`${TOWARDS} ${SEASON}(?: (?:starts|begins|is over|ends))?`, "gi"),
  /(?:before|when|once|after|as soon as) (?:it|the weather) (?:gets|turns|is) (?:cold|colder|warm|warmer)/gi,
  new RegExp(
    `(?:(?:early|late|later|some ?time|${TOWARDS}) )*(?:in |the )*(?:next|this|coming) ${PERIOD}`,
    "gi",
  ),
  new RegExp(
    `(?:(?:by|at|before|towards?) )?(?:the )?(?:end|start|beginning|middle) of (?:the |next |this )?(?:${PERIOD}|${MONTH})`,
    "gi",
  ),
  /(?:at|over|by|before|after) (?:the |this |next )weekend/gi,
  /the week after next|the month after next/gi,
  new RegExp(
    `(?:(?:early|late|later|some ?time) )?(?:in|by|before|during|until|next) (?:the (?:end|middle|start) of )?${MONTH}(?!\\s*\\d)(?: \\d{4})?`,
    "gi",
  ),
  /(?:in|within|after|over) (?:the next )?(?:about )?(?:an? )?(?:few|couple(?: of)?|several|some) (?:more )?(?:hours|days|weeks|months|years)/gi,
  /(?:in|within|after) \w+(?: or | to |-)\w+ (?:hours|days|weeks|months|years)/gi,
  /as soon as (?:possible|we can|i can)|\basap\b|(?:very )?soon(?!er)|right away|immediately|at once|straight away/gi,
  /(?:(?:at|on|before|by|until|with) )?(?:the |his |my |our )?(?:next|annual|yearly) (?:visit|service|inspection|appointment|call|time)(?: round)?/gi,
  /next time/gi,
  /(?:at|by) some point|some ?time|one day|some day|any ?time|in due course|later on|in the morning|in the afternoon|in the new year|first thing/gi,
  /(?:when|once|as soon as|after) (?:the |a |his |my |our |that |it |they )?(?:[\p{L}-]+ ){0,3}(?:arrives?|comes?(?: in)?|is (?:here|in|in stock|delivered|available)|are (?:here|in|in stock|delivered|available)|has arrived|have arrived|delivered|gets here)/giu,
];

/** Where a text says so, the longest of what overlaps not yet sorted out. */
export function noDays(text: string): NoDay[] {
  return FORMS.flatMap((form) =>
    [...text.matchAll(form)].flatMap(({ 0: found, index }) =>
      isWhole(text, index, index + found.length) ? [{ from: index, to: index + found.length }] : [],
    ),
  );
}

function isWhole(text: string, from: number, to: number): boolean {
  const isLetter = (at: string | undefined) => at !== undefined && /[\p{L}\p{N}]/u.test(at);
  return !isLetter(text[from - 1]) && !isLetter(text[to]);
}
