import type { Role } from "../../visit/task.ts";

/** What people are to a visit, by the words for them. */
const WORDS: Readonly<Record<Role, string>> = {
  customer: "customer client householder homeowner resident",
  owner: "owner landlord landlady",
  tenant: "tenant occupier lodger",
  caretaker: "caretaker janitor concierge superintendent porter warden housekeeper",
  manager: "manager agent agency",
  office: "office dispatch dispatcher scheduler receptionist",
  technician: "technician engineer fitter apprentice colleague mechanic installer mate",
  electrician: "electrician sparky sparks",
  plumber: "plumber",
  supplier: "supplier merchant merchants wholesaler stores",
  authority: "authority inspector council utility transporter",
};

const ROLE_OF: ReadonlyMap<string, Role> = new Map(
  (Object.keys(WORDS) as Role[]).flatMap((role) =>
    WORDS[role].split(" ").flatMap((word) => [
      [word, role],
      [`${word}s`, role],
    ]),
  ),
);

/** The role that a word (in lower case) stands for; null for any other word. */
export function roleOf(word: string): Role | null {
  return ROLE_OF.get(word) ?? null;
}
