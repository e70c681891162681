import type { Target } from "./target.ts";

/** What a person can do something about: its message is a sentence for him, without secrets. */
export class Trouble extends Error {}

/** What went wrong with a book, in one sentence. No stack, and never the address with its password. */
export function troubleOf(error: unknown, target: Target): string {
  if (error instanceof Trouble) return error.message;
  const code = error instanceof Error && "code" in error ? String(error.code) : "";
  const message = error instanceof Error ? firstLine(error.message) : "";
  const told = SENTENCES.find(({ when }) => when.test(code) || when.test(message));
  if (told) return `${target.shown}: ${told.say(target.kind)}`;
  const known = code === "" ? message : `${message} (${code})`;
  return `${target.shown}: expected a book that can be read and written, found: ${withoutSecrets(known)}`;
}

/** Whether another try of the same batch may go well: it met somebody else's at a distributed or busy server. */
export function isPassing(error: unknown): boolean {
  const code = error instanceof Error && "code" in error ? String(error.code) : "";
  return code === "40001" || code === "40P01";
}

/** Whether the rows themselves were refused (SQLSTATE classes 22, 23 and 54), not the connection or the server. */
export function isOfData(error: unknown): error is Error {
  return error instanceof Error && "code" in error && /^(22|23|54)[\dA-Z]{3}$/.test(String(error.code));
}

interface Told {
  readonly when: RegExp;
  readonly say: (kind: Target["kind"]) => string;
}

const expected = (text: string) => () => text;

/** By SQLSTATE (PostgreSQL 15, appendix A), by what the system says, and by what the driver says where there is no code. */
const SENTENCES: readonly Told[] = [
  {
    when: /^(ECONNREFUSED|ENOENT)$/,
    say: expected("expected a PostgreSQL server, found none that answers there."),
  },
  {
    when: /^(ENOTFOUND|EAI_AGAIN)$/,
    say: expected("expected the name of a host, found none that this machine knows."),
  },
  {
    when: /^(ETIMEDOUT|EHOSTUNREACH|ENETUNREACH)$|timeout expired|connection timeout/i,
    say: expected("expected a PostgreSQL server that answers within 15 seconds, found none."),
  },
  {
    when: /^28000$/,
    say: expected("expected a user, database and sslmode that the server lets in, found that it does not."),
  },
  {
    when: /^28P01$|password must be a string|no password supplied|SASL/i,
    say: expected("expected a user and a password that the server takes, found that it refuses them."),
  },
  { when: /^3D000$/, say: expected("expected a database of that name, found none on the server.") },
  {
    when: /^42501$/,
    say: expected("expected a user who may make tables and write in them, found one who may not."),
  },
  {
    when: /does not support SSL/,
    say: expected("expected a server with TLS, as sslmode asks for it, found one without."),
  },
  {
    when: /CERT|SELF_SIGNED|self.signed|UNABLE_TO_|altnames/i,
    say: expected("expected a certificate that sslmode lets pass, found one that does not prove the server."),
  },
  {
    when: /^(ENOSPC|53100|EDQUOT)$|no space left/i,
    say: (kind) =>
      kind === "folder"
        ? "expected space on the disk, found none left; make room and run it again, what was loaded stays."
        : "expected space on the server's disk, found none left; what was loaded stays.",
  },
  {
    // PostgreSQL's PANIC, as the embedded one ends with it; SQLSTATE: data or index corrupted.
    when: /^Aborted\(\)|PGlite failed to initialize|^XX00[12]$/,
    say: (kind) =>
      kind === "folder"
        ? "expected a book that is whole, found one that PostgreSQL gives up on; where the disk has room the book is damaged: move the folder away and load the bundles again, it is made from them alone."
        : "expected a book that is whole, found that the server calls its data damaged.",
  },
  { when: /^(EACCES|EPERM|EROFS)$/, say: expected("expected a folder that this user may write in.") },
  {
    when: /^(57P0\d|08\d{3}|ECONNRESET|EPIPE)$|Connection terminated/i,
    say: expected("the connection to the server was lost; run it again, what was loaded stays."),
  },
  { when: /^53300$/, say: expected("expected a free connection, found that the server has none left.") },
  {
    when: /^(25006)$/,
    say: expected("expected a server that can be written to, found one for reading only."),
  },
];

function firstLine(text: string): string {
  return text.split("\n")[0] ?? "";
}

/** An address with a password, should a driver ever quote one. */
function withoutSecrets(text: string): string {
  return text.replace(/(postgres(?:ql)?:\/\/[^\s:@/]*):[^\s@/]*@/gi, "$1@");
}
