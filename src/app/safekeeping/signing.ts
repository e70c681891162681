import type { Notebook } from "../../device/notebook/notebook.ts";
import type { DeviceKey } from "../../device/signing/device-key.ts";
import { NO_CRYPTOGRAPHY } from "../../device/signing/sha256.ts";
import { type Examined, type Finding, UNLINKED } from "../../record/integrity/finding.ts";
import type { Statement } from "../../record/integrity/statement.ts";
import { foldVisit } from "../../visit/fold.ts";
import { MOST_SIGNATURES } from "../../visit/integrity.ts";
import type { Visit } from "../../visit/visit.ts";

/** What examines and signs logs; loaded when it is first needed, for no first screen needs it. */
export interface Cryptography {
  readonly examine: (visit: Visit, breathe: () => Promise<void>) => Promise<Finding>;
  readonly makeKey: () => Promise<DeviceKey>;
  readonly sign: (statement: Statement, key: DeviceKey) => Promise<string>;
}

export interface SigningWorld {
  readonly notebook: Pick<Notebook, "bundle" | "keepSignature" | "deviceKey">;
  /** Rejects where it cannot be loaded; null where the platform has none. */
  readonly cryptography: () => Promise<Cryptography | null>;
  /** ISO 8601. */
  readonly now: () => string;
  readonly breathe: () => Promise<void>;
}

/** A visit to hand over, and what can be said of its log. */
export interface Signed extends Examined {
  readonly visit: Visit;
}

/**
 * Signs finished visits with the key of this device, whenever they are handed over and the last signature does not cover them.
 * A log that does not fit its links is never signed: that would make good what somebody has changed.
 */
export class Signing {
  readonly #world: SigningWorld;
  readonly #reason: (error: unknown) => string;
  /** One after the other: two at a time would sign the same twice. */
  #work: Promise<unknown> = Promise.resolve();

  constructor(world: SigningWorld, reason: (error: unknown) => string) {
    this.#world = world;
    this.#reason = reason;
  }

  /** The visit as it is handed over: signed, where it is finished and can be. Rejects only where it cannot be read. */
  handOver(id: string): Promise<Signed> {
    const signed = this.#work.then(() => this.#handOver(id));
    this.#work = signed.catch(() => undefined);
    return signed;
  }

  /** What can be said of one of the notebook as it is now: nothing is signed. Rejects only where it cannot be read. */
  async look(id: string): Promise<Signed> {
    return this.examine((await this.#world.notebook.bundle(id)).visit);
  }

  /** What can be said of a visit that is no one of the notebook. */
  async examine(visit: Visit): Promise<Signed> {
    // Nothing has to be loaded to say so.
    if (!visit.integrity) return { visit, finding: UNLINKED, trouble: null };
    try {
      const cryptography = await this.#world.cryptography();
      if (!cryptography) return { visit, finding: null, trouble: NO_CRYPTOGRAPHY };
      return { visit, finding: await cryptography.examine(visit, this.#world.breathe), trouble: null };
    } catch (error) {
      return { visit, finding: null, trouble: this.#reason(error) };
    }
  }

  /** The key of this device: its thumbprint; null where it has none. */
  async thumbprint(): Promise<string | null> {
    try {
      const cryptography = await this.#world.cryptography();
      return cryptography && (await this.#world.notebook.deviceKey(cryptography.makeKey)).thumbprint;
    } catch {
      return null;
    }
  }

  async #handOver(id: string): Promise<Signed> {
    const { notebook } = this.#world;
    const { visit, ownFrom } = await notebook.bundle(id);
    const before = await this.examine(visit);
    if (before.finding === null || !wantsSignature(visit, before.finding)) return before;
    try {
      const signature = await this.#sign(visit, ownFrom);
      await notebook.keepSignature(id, signature);
      const { integrity } = visit;
      if (!integrity) return before;
      const signatures = [...integrity.signatures, signature];
      return await this.examine({ ...visit, integrity: { ...integrity, signatures } });
    } catch (error) {
      return { ...before, trouble: this.#reason(error) };
    }
  }

  async #sign({ head, entries, integrity }: Visit, ownFrom: number): Promise<string> {
    const cryptography = await this.#world.cryptography();
    const link = integrity?.links.at(-1);
    if (!cryptography || link === undefined) throw new Error(NO_CRYPTOGRAPHY);
    if ((integrity?.signatures.length ?? 0) >= MOST_SIGNATURES) throw new Error(TOO_MANY);
    const key = await this.#world.notebook.deviceKey(cryptography.makeKey);
    const at = this.#world.now();
    const log = { visit: head.id, entries: entries.length, link, ownFrom };
    return cryptography.sign({ format: "burnerside-statement/1", ...log, at }, key);
  }
}

const TOO_MANY = `it came with ${MOST_SIGNATURES} signatures, and a log can have no more`;

/** A finished visit whose links fit, unless it is signed to its end already. */
function wantsSignature(visit: Visit, finding: Finding): boolean {
  if (!foldVisit(visit).finished) return false;
  switch (finding.kind) {
    case "altered":
    case "whole":
      return false;
    case "unsigned":
    case "in-part":
      return true;
  }
}
