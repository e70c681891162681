import canonicalize from "canonicalize";

/**
 * JSON in its one canonical form (RFC 8785): the same value gives the same text, whatever order its fields came in. A lone
 * surrogate, which that form cannot hold, counts as U+FFFD, so that a text from a broken keyboard is still linked.
 * Throws for what is no JSON value: a fault of the caller.
 */
export function canonicalText(value: unknown): string {
  const text = canonicalize(wellFormed(value));
  if (text === undefined) throw new TypeError("Expected a JSON value.");
  return text;
}

function wellFormed(value: unknown): unknown {
  if (typeof value === "string") return value.isWellFormed() ? value : value.toWellFormed();
  if (Array.isArray(value)) return value.map(wellFormed);
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([name, each]) => [name, wellFormed(each)]));
}
