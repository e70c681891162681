const set = (words: string): ReadonlySet<string> => new Set(words.split(/\s+/));

/** What may stand before a thing and is not of it. */
export const DETERMINERS = set(
  "the a an this that these those some any another his her their our my your its all both new old more brand replacement complete",
);

/** Of those, what says that a thing is to take another's place. */
export const NEW = set("new another replacement");

/** What ties a thing to where it is or what it is of: "gasket on the trap". */
export const TIES = set("of on in at behind under above inside near between below beside from for");

export const CONJUNCTIONS = set("and or but then so plus & nor yet however otherwise also");

export const NEGATIVE = set(
  "no not never without cannot can't cant don't dont doesn't doesnt didn't didnt won't wont isn't isnt aren't arent wasn't wasnt weren't werent haven't havent hasn't hasnt hadn't needn't neednt shouldn't mustn't wouldn't couldn't nobody nothing none neither nor avoid rather refused declined cancelled hardly",
);

/** Makes a verb only possible. */
export const POSSIBLE = set(
  "might may could would can maybe perhaps possibly probably couldn't wouldn't can't cannot i'd we'd he'd she'd they'd id",
);

/** Makes a verb wanted. */
export const BOUND = set("will shall must should i'll we'll ought let's gotta gonna 'll");

/** Names of what is wrong: nothing is done to them. */
export const SYMPTOMS = set(
  "smell smells noise noises leak leaks alarm fault faults lockout problem problems issue issues trouble rattle hum drip whistle bang banging light code",
);

/** Gerunds inside the names of parts: "flame sensing electrode". */
export const OF_PARTS = set(
  "gas sensing mixing sealing igniting lighting mounting fixing heating charging filling balancing regulating modulating condensing circulating switching measuring locking",
);

export const NEEDS = set("need needs needing want wants require requires");

export const ADVISED = set("recommend recommended suggest suggested advise advised propose due");

export const WE = set("i we i'll we'll i've we've ive weve i'm we're");

export const OTHERS = set(
  "he she they you it who someone somebody he'll she'll they'll you'll it'll they've he's she's everyone people nobody anyone",
);

/** What may stand between a verb and what governs it. */
export const HELPERS = set(
  "to please just also then still now already be been being is are was were am has have had having do does did got get gets going remember plan planning ideally definitely eventually longer only again properly fully soon really always better next time need needed required wants",
);

/** After these "to" does not ask for anything: "tried to clean". */
export const NOT_BEFORE_TO = set(
  "tried trying failed refused used able unable ready asked told how hard easy difficult time chance access where what whether decided managed prefers likes liked forgot forgotten impossible unsafe safe possible allowed supposed enough wanted came went expected seems seem seemed appears appeared hoping hopes wishes agreed close similar according compared due",
);

/** Never in a thing. */
export const NEVER_THING = set(
  "i we he she it they you me him them us who what which that there here " +
    "and or but then so plus & nor yet if unless because since while when whenever once until although though as than however otherwise " +
    "to with without by about into onto over through via per during before after against around across along up down out off back away " +
    "is are was were be been being am has have had do does did will would shall should can could may might must need needs needed want wants required " +
    "not no never n't don't doesn't didn't won't isn't aren't wasn't " +
    "due tight none nothing everything again too also just only still already now soon later today properly fully really very quite please ok okay fine good well bad alright " +
    "same yes how why where asap annually yearly weekly monthly daily possible " +
    "make made get got let keep leave use try put turn open close wait every round go come see say says said know think looks look seems feels sounds going gone done left found took taken give given told asked wants",
);

/** Begins what holds only perhaps. */
export const IF = set(
  "if unless whether provided providing maybe perhaps possibly consider considering suppose wonder wondering depending",
);

/** What somebody else holds or wishes. */
export const REPORTS = set(
  "says say said asks asked thinks thought reckons claims claimed wants wanted recommends suggests states specifies insists prefers reports reported complains complained mentioned believes believed hopes hoped wishes explained told tells advises advised wondered requested requests",
);

/** Papers that say what is to be done in general. */
export const PAPERS = set(
  "manual instructions instruction sheet book guide bulletin regulations standard code label sticker warranty maker makers manufacturer",
);

export const QUESTION = set(
  "do does did should shall can could would is are was were will what why how who when where which has have",
);

/** In a clause with these a past tense is of another time or of other people. */
export const PAST_TIME =
  /\b(?:last (?:\w+ )?(?:year|month|week|time|visit|service|summer|winter|autumn|spring|season|night|inspection|man|engineer|technician|fitter|january|february|march|april|may|june|july|august|september|october|november|december|monday|tuesday|wednesday|thursday|friday|saturday|sunday)|ago|yesterday|previous(?:ly)?|originally|in (?:19|20)\d\d|since|earlier|years?|supposedly|apparently|recently|once|before we came|every|always|usually|by (?:the |a |an |his |their )?(?:previous|last|other|another|someone|somebody|others))\b/i;

/** Nouns for something to be done: "needs a clean". */
export const NOMINAL = {
  clean: "clean",
  cleaning: "clean",
  flush: "clean",
  descale: "clean",
  check: "check",
  inspection: "check",
  test: "check",
  look: "check",
  repair: "repair",
  replacement: "replace",
  replacing: "replace",
  sorting: "repair",
  adjustment: "adjust",
  service: "other",
  servicing: "other",
} as const;

/** Nouns for what something is to cost. */
export const PRICES = set("quote quotation price estimate cost costs figure");

/** "Needs attention" asks for nothing that could be done. */
export const NOT_NEEDED = set(
  "attention care work time help access people person man men hands lot nothing doing hour hours day days week weeks minute minutes year years",
);
