/**
 * Evaluates the number tags of the grammar in spoken order: `+N` adds, `xN` multiplies, `k` banks thousands, `.`
 * starts the decimals (which `+N` then appends to), `-` negates. Null where no number was said.
 */
export function numberOf(tags: readonly string[]): number | null {
  let banked = 0;
  let group = 0;
  let decimals: string | null = null;
  let negative = false;
  let said = false;
  // "point twenty five" is .25, not .205: a digit joins the tens just before it.
  let afterTens = false;
  for (const tag of tags) {
    if (tag === "-") negative = true;
    else if (tag === "k") {
      banked += group * 1000;
      group = 0;
    } else if (tag === ".") decimals = "";
    else if (tag.startsWith("x") && decimals === null) group *= Number(tag.slice(1));
    else if (tag.startsWith("+")) {
      const digits = tag.slice(1);
      said = true;
      if (decimals === null) group += Number(digits);
      else decimals = (afterTens && digits.length === 1 ? decimals.slice(0, -1) : decimals) + digits;
      afterTens = /^[2-9]0$/.test(digits);
    }
  }
  if (!said) return null;
  // Through text, so that "nine point two" is exactly 9.2.
  const size = Number(`${banked + group}.${decimals === null || decimals === "" ? "0" : decimals}`);
  return negative && size !== 0 ? -size : size;
}

/** Whether decimals were said: "nine point zero" shows a tenth, though its value is whole. */
export function hasPoint(tags: readonly string[]): boolean {
  return tags.includes(".");
}

/** Whether a tag belongs to a number. */
export function isNumberTag(tag: string): boolean {
  return /^(?:[+x]\d+|k|\.|-)$/.test(tag);
}
