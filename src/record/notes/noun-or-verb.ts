import { type ActionWord, actionAt } from "./actions.ts";
import { roleOf } from "./roles.ts";
import { hasVerb, isThing, type Sentence } from "./thing.ts";
import { DETERMINERS, NEEDS, NEW } from "./vocabulary.ts";

/** Names of parts that begin with a word that is a verb as well. */
const PARTS =
  /^(?:test (?:port|point|screw|mode|nipple|button|certificate|tap|plug|results?)|drain (?:valve|cock|off|pipe|point|pan|hose|plug)|order (?:number|no)|return (?:pipe|temperature|temp|flow|sensor|valve|line|side|water|header|probe|thermistor)|service (?:kit|valve|manual|interval|book|due|light|plate|panel|mode|door|hatch)|check valves?|set (?:point|screw|pressure)|seal (?:kit|ring)|call (?:point|for)|fit for|change over|flush (?:valve|water|mode)|ring (?:main|seal)|balance (?:pipe|valve)|vent (?:pipe|valve|cap)|support (?:bracket|leg)|oil (?:tank|burner|boiler|line)|clean (?:air|room|water)|clear (?:water|cover)|schedule|mount)\b/;

/** Whether a word that is a noun as well is one here: it has its own verb, or begins the name of a part. */
export function isNounHere(s: Sentence, place: number, act: ActionWord): boolean {
  const { words } = s;
  const [word, next] = [words[place], words[place + act.length]];
  if (!word) return true;
  if (act.action === "return") {
    // The return is a pipe as well: it is a verb only before a day, a purpose or nothing.
    return !(
      next === undefined ||
      next.stop !== "" ||
      s.isWhen(place + 1) ||
      /^(?:to|with|for|and|on|in|by|when|once|after|before|at)$/.test(next.norm)
    );
  }
  // "quote for the flush was sent".
  const isFor = act.base.endsWith(" for") || (next?.stop === "" && /^(?:for|of)$/.test(next.norm));
  if (act.forms.has("base") && isFor) {
    let of = place + act.length + (act.base.endsWith(" for") ? 0 : 1);
    while (words[of]?.stop === "" && (DETERMINERS.has(words[of]?.norm ?? "") || isThing(s, of))) of++;
    if (hasVerb(s, of)) return true;
  }
  const isPart = next?.stop === "" && PARTS.test(`${word.norm} ${next.norm}`);
  if (hasVerb(s, place + act.length)) return true;
  let end = place + act.length;
  while (isThing(s, end) && words[end]?.stop === "") end++;
  const isSubject = end > place + act.length && hasVerb(s, end);
  if (isSubject && (isPart || isTold(words[end]?.norm, s, end))) return true;
  return isPart && act.action !== "check";
}

/** "… needs", "… replaced" are said of a thing; "… is" may be what is to be checked. */
function isTold(word: string | undefined, { words }: Sentence, place: number): boolean {
  if (word === undefined) return false;
  return NEEDS.has(word) || (actionAt((ahead) => words[place + ahead]?.norm)?.forms.has("past") ?? false);
}

/** Whether a new verb begins here, in the middle of a thing or in front of one. */
export function beginsVerb(s: Sentence, place: number, inThing: boolean): boolean {
  const { words } = s;
  const act = actionAt((ahead) => words[place + ahead]?.norm);
  if (!act) return false;
  // "warning label", "sealing ring".
  if (act.forms.has("gerund") && words[place + 1]?.stop === "" && words[place + 1]?.tags.has("Noun"))
    return false;
  if (!act.isCommon) return true;
  if ((act.forms.has("past") && !act.forms.has("base")) || act.forms.has("gerund")) return true;
  const next = words[place + act.length];
  if (
    next?.stop === "" &&
    (DETERMINERS.has(next.norm) || NEW.has(next.norm) || /^(?:it|them|one)$/.test(next.norm))
  )
    return true;
  if (
    !/^(?:check|clean|order|call|change|ring|quote|test|measure|book|contact)$/.test(words[place]?.norm ?? "")
  )
    return false;
  if (isNounHere(s, place, act)) return false;
  return !inThing || (next?.stop === "" && (isThing(s, place + act.length) || roleOf(next.norm) !== null));
}
