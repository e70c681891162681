import type { Expansion, Grammar } from "./abnf/syntax.ts";
import { isNumberTag } from "./number.ts";

/**
 * The words that stand for those like them. Words are alike where every rule has them as alternatives of one choice, with
 * tags of one shape ("four {+4} | five {+5}"): what can be said with one can be said with the other. The first of such a
 * row stands for all.
 */
export function standIns(grammars: Iterable<Grammar>): ReadonlySet<string> {
  const places = new Map<string, string[]>();
  let place = 0;
  const put = (words: string, at: string): void => {
    for (const word of words.split(/\s+/)) {
      const known = places.get(word);
      if (known) known.push(at);
      else places.set(word, [at]);
    }
  };
  const walk = (part: Expansion): void => {
    place += 1;
    switch (part.kind) {
      case "token":
        put(part.word, `${place}`);
        break;
      case "sequence":
        part.parts.forEach(walk);
        break;
      case "repeat":
        walk(part.of);
        break;
      case "choice": {
        const here = place;
        for (const { weight, of } of part.options) {
          const alone = wordWithTag(of);
          if (alone) put(alone.word, `${here} ${weight} ${alone.shape}`);
          else walk(of);
        }
        break;
      }
      case "tag":
      case "ref":
      case "special":
    }
  };
  for (const { rules } of grammars) for (const { body } of rules.values()) walk(body);

  const first = new Map<string, string>();
  for (const [word, at] of places) {
    const signature = at.join(",");
    if (!first.has(signature)) first.set(signature, word);
  }
  return new Set(first.values());
}

/** An alternative that is one word, with at most one tag after it. */
function wordWithTag(part: Expansion): { word: string; shape: string } | null {
  const [token, tag, more] = part.kind === "sequence" ? part.parts : [part];
  if (token?.kind !== "token" || /\s/.test(token.word) || more) return null;
  if (!tag) return { word: token.word, shape: "" };
  return tag.kind === "tag" ? { word: token.word, shape: tagShape(tag.tag) } : null;
}

/** A tag with the figures of a number made alike: "+4" and "+7" have one shape, "+17" another. */
function tagShape(tag: string): string {
  return isNumberTag(tag) && tag.startsWith("+") ? tag.replace(/\d/g, "9") : tag;
}
