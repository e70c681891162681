import { createHash, createPublicKey, verify } from "node:crypto";
import { expect, test } from "vitest";
import { sha256 } from "../../../src/device/signing/sha256.ts";
import { makeDeviceKey, signText, verifySignature } from "../../../src/device/signing/signatures.ts";

const bytes = (text = "") => Buffer.from(text, "base64url");

test("SHA-256 of Web Crypto is that of FIPS 180-4's example, and of Node", async () => {
  // "abc", appendix B.1 of FIPS 180-2; from memory.
  const abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
  expect(bytes(await sha256("abc")).toString("hex")).toBe(abc);
  for (const text of ["", "é\u{1f525}", "x".repeat(1000)])
    expect(await sha256(text)).toBe(createHash("sha256").update(text).digest("base64url"));
});

test("what was signed is verified by Node's own cryptography, after RFC 7515 and 7518", async () => {
  const key = await makeDeviceKey();
  const [head, payload, signature] = (await signText("CO 40 é", key)).split(".");
  expect(bytes(payload).toString()).toBe("CO 40 é");
  expect(JSON.parse(bytes(head).toString())).toEqual({ alg: "ES256", jwk: key.publicKey });
  const publicKey = createPublicKey({ key: { ...key.publicKey }, format: "jwk" });
  const isGood = (text: string) =>
    verify("sha256", Buffer.from(text), { key: publicKey, dsaEncoding: "ieee-p1363" }, bytes(signature));
  expect(isGood(`${head}.${payload}`)).toBe(true);
  expect(isGood(`${head}.${payload}x`)).toBe(false);
});

test("the thumbprint is that of RFC 7638: SHA-256 of the required fields in their order", async () => {
  const { publicKey, thumbprint } = await makeDeviceKey();
  const { crv, kty, x, y } = publicKey;
  const text = `{"crv":"${crv}","kty":"${kty}","x":"${x}","y":"${y}"}`;
  expect(thumbprint).toBe(createHash("sha256").update(text).digest("base64url"));
});

test("the private half of the key is given to nobody", async () => {
  const { privateKey } = await makeDeviceKey();
  expect(privateKey.extractable).toBe(false);
  await expect(crypto.subtle.exportKey("pkcs8", privateKey)).rejects.toThrow();
  await expect(crypto.subtle.exportKey("jwk", privateKey)).rejects.toThrow();
});

test("a signature is of the key that it names, whatever else it says", async () => {
  const [key, other] = await Promise.all([makeDeviceKey(), makeDeviceKey()]);
  const good = await signText("x", key);
  expect(await verifySignature(good)).toEqual({ ok: true, payload: "x", key: key.thumbprint });
  const [, payload, signature] = good.split(".");
  const headOf = (head: object) => Buffer.from(JSON.stringify(head)).toString("base64url");
  const forged = [
    `${headOf({ alg: "ES256", jwk: other.publicKey })}.${payload}.${signature}`,
    `${headOf({ alg: "none", jwk: key.publicKey })}.${payload}.`,
    `${headOf({ alg: "none", jwk: key.publicKey })}.${payload}.${signature}`,
    `${headOf({ alg: "HS256", jwk: { kty: "oct", k: "AAAA" } })}.${payload}.${signature}`,
    `${headOf({ alg: "ES256" })}.${payload}.${signature}`,
    good.slice(0, -6),
    "",
    "a.b.c",
  ];
  for (const one of forged) expect(await verifySignature(one)).toEqual({ ok: false });
});
