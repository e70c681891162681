/** What made a record: the program and its version, as in package.json. */
export const PROGRAM = "Burnerside 0.1.0";
