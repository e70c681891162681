import { createHash } from "node:crypto";
import fc from "fast-check";
import { expect, test } from "vitest";
import { fingerprint } from "../../../src/record/integrity/fingerprint.ts";

// RFC 7638, section 3.1: the thumbprint of the example key, in base64url.
test("the example of RFC 7638", () =>
  expect(fingerprint("NzbLsXh8uDCcd-6MNwXF4W_7noWXFZAfHkxZsRGC9Xs")).toBe("3736 CBB1 787C B830 9C77"));

test("the first ten bytes in hexadecimal, as Node writes them, whatever the key", () =>
  fc.assert(
    fc.property(fc.string(), (text) => {
      const digest = createHash("sha256").update(text).digest();
      const groups = digest.subarray(0, 10).toString("hex").toUpperCase().match(/.{4}/g);
      expect(fingerprint(digest.toString("base64url"))).toBe(groups?.join(" "));
    }),
  ));
