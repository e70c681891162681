/** How a statement begins that copies rows in: "copy table (columns) from stdin". Its one parameter is the rows, as lines. */
export const COPY = "copy ";

/** The rows of such a statement; null for any other. Throws where it has none: a fault of the caller. */
export function rowsToCopy(statement: string, [rows]: readonly unknown[]): string | null {
  if (!statement.startsWith(COPY)) return null;
  if (typeof rows !== "string") throw new TypeError("Expected rows to copy, found none.");
  return rows;
}
