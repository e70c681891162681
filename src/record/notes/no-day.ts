/** Words that say when without naming a day. UTF-16 units. */
export interface NoDay {
  readonly from: number;
  readonly to: number;
}

const TOWARDS = "(?:before|after|by|in|during|until|till|for|at|over|towards?)";
const SEASON =
  "(?:the |this |next |coming |heating |winter |summer |holiday )*(?:season|winter|summer|spring|autumn|holidays|frost|back end|cold weather|warm weather|christmas|easter|new year)";
const MONTH = "(?:january|february|march|april|may|june|july|august|september|october|november|december)";
const PERIOD = "(?:week|month|year|weekend|quarter|season)";
const MANY = "(?:hours|days|weeks|months|years)";
const HERE = "(?:here|in stock|in|delivered|available|ready|back)";

const FORMS = [
  `${TOWARDS} ${SEASON}(?: (?:starts|begins|is over|ends))?`,
  `next (?:winter|summer|spring|autumn|heating season)`,
  "(?:before|when|once|after|as soon as) (?:it|the weather) (?:gets|turns|is) (?:cold|colder|warm|warmer)",
  `(?:(?:early|late|later|some ?time|${TOWARDS}) )*(?:in |the )?(?:next|this|coming) ${PERIOD}`,
  `(?:(?:by|at|before|towards?) )?(?:the )?(?:end|start|beginning|middle) of (?:the |next |this )?(?:${PERIOD}|${MONTH})`,
  `(?:in )?(?:early|late|mid)[ -]${MONTH}`,
  "(?:at|over|by|before|after) (?:the |this |next )weekend",
  "(?:(?:by|in|for|before) )?the (?:week|month|year) after next",
  `(?:(?:early|late|later|some ?time) )?(?:in|by|before|during|until|next) (?:the (?:end|middle|start) of )?${MONTH}(?!\\s*\\d)(?: \\d{4})?`,
  `(?:in|within|after|over) (?:the next )?(?:about )?(?:an? )?(?:few|couple(?: of)?|several|some) (?:more )?${MANY}`,
  "(?:in|within|after) \\w+ (?:day|week|month|year)s? (?:and a half|or so|or two)",
  `(?:in|within|after) \\w+(?: or | to |-)\\w+ ${MANY}`,
  "as soon as (?:possible|we can|i can|they can)|asap|(?:very )?soon|right away|immediately|at once|straight away",
  "(?:(?:at|on|before|by|until|with|for) )?(?:(?:the|his|my|our) )?(?:next|annual|yearly|next annual|next yearly) (?:visit|service|inspection|appointment|call|time)",
  "(?:at|on|with|during) (?:the|your|our|my) next (?:\\p{L}+[ -]){0,2}\\p{L}+(?=\\s*(?:[.,;:!?]|$))",
  "in the next (?:\\w+ ){1,2}or so|before (?:too )?long",
  "(?:when|once) (?:in stock|in|here|available|delivered|possible|convenient|passing)(?=\\s*(?:[.,;:!?]|$|and\\b))",
  "at (?:the )?(?:service|visit)(?=\\s*(?:[.,;:!?]|$|and\\b))",
  "(?:at|by) some point|some ?time|one day|some day|any ?time|in due course|later on|in the morning|in the afternoon|in the new year|first thing",
  "(?:when|while|next time|the next time) (?:you're|you’re|we're|we’re|i'm|i’m|you are|we are|i am|someone is|someone's|someone’s) (?:next )?(?:here|back|on site|passing|there)(?: next| again)?",
  `(?:when|once|as soon as) (?:it's|they're|it’s|they’re) ${HERE}`,
  `(?:when|once|as soon as|after) (?:(?:the|a|his|my|our|that|it|they) )?(?:(?!(?:we|i|will|to|can)\\b)[\\p{L}-]+ ){0,3}(?:arrives?|comes?(?: in)?|(?:is|are) ${HERE}|(?:has|have) (?:arrived|come(?: in)?)|gets? here|turns? up)`,
].map((form) => new RegExp(`(?<![\\p{L}\\p{N}])(?:${form})(?![\\p{L}\\p{N}])`, "giu"));

/** Where a text says so, the longest of what overlaps not yet sorted out. */
export function noDays(text: string): NoDay[] {
  return FORMS.flatMap((form) =>
    [...text.matchAll(form)].map(({ 0: found, index }) => ({ from: index, to: index + found.length })),
  );
}
