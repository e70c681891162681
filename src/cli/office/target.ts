import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import type { ConnectionOptions } from "node:tls";

/** Where a book is: a folder on this machine, or a PostgreSQL server. */
export type Target =
  | { readonly kind: "folder"; readonly path: string; readonly shown: string }
  | {
      readonly kind: "server";
      readonly address: string;
      readonly tls: readonly Tls[];
      readonly shown: string;
    };

/** How a connection is tried: plain (false), or with TLS. */
export type Tls = false | ConnectionOptions;

export type ReadTarget =
  | { readonly ok: true; readonly target: Target }
  | { readonly ok: false; readonly problem: string };

const MODES = ["disable", "prefer", "require", "verify-ca", "verify-full"] as const;
type Mode = (typeof MODES)[number];

/** A folder, or an address as libpq has them: postgres://USER@HOST:PORT/DATABASE?sslmode=… Problems never quote it: it may hold a password. */
export function readTarget(text: string): ReadTarget {
  if (!/^[a-z][a-z\d+.-]*:\/\//i.test(text)) return { ok: true, target: folder(text) };
  if (!/^postgres(ql)?:/i.test(text))
    return refused(`an address that begins with "${text.slice(0, text.indexOf(":"))}:"`);
  if (!URL.canParse(text)) return refused("one that cannot be read");
  return server(new URL(text));
}

function folder(text: string): Target {
  return { kind: "folder", path: resolve(text), shown: text };
}

function server(url: URL): ReadTarget {
  const mode = url.searchParams.get("sslmode") ?? "prefer";
  if (!isMode(mode)) return refused(`one with an sslmode other than ${MODES.join(", ")}`);
  let ca: string | null = null;
  const rootCert = url.searchParams.get("sslrootcert");
  if (rootCert !== null) {
    try {
      ca = readFileSync(rootCert, "utf8");
    } catch {
      return refused(`one whose sslrootcert names no readable file`);
    }
  }
  const shown = shownAddress(url);
  for (const name of ["sslmode", "sslrootcert"]) url.searchParams.delete(name);
  return { ok: true, target: { kind: "server", address: url.href, tls: tlsOf(mode, ca), shown } };
}

function isMode(text: string): text is Mode {
  return MODES.some((mode) => mode === text);
}

/** The ways to try, in order, as libpq's documentation has them (PostgreSQL 15, section 34.19.1): "prefer" falls back to none. */
function tlsOf(mode: Mode, ca: string | null): readonly Tls[] {
  const trusted = ca === null ? {} : { ca };
  const unchecked: ConnectionOptions = { rejectUnauthorized: false };
  const anyHost: ConnectionOptions = { ...trusted, checkServerIdentity: () => undefined };
  switch (mode) {
    case "disable":
      return [false];
    case "prefer":
      return [unchecked, false];
    case "require":
      return [ca === null ? unchecked : anyHost];
    case "verify-ca":
      return [anyHost];
    case "verify-full":
      return [trusted];
  }
}

/** Without the password, and without the parameters, one of which may be one. */
function shownAddress(url: URL): string {
  const user = url.username === "" ? "" : `${url.username}@`;
  return `${url.protocol}//${user}${url.host}${url.pathname}`;
}

function refused(found: string): ReadTarget {
  return { ok: false, problem: `expected a folder or postgres://USER@HOST:PORT/DATABASE, got ${found}` };
}
