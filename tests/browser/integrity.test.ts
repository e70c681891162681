import { createHash, createPublicKey, verify } from "node:crypto";
import { readFile } from "node:fs/promises";
import { expect, test } from "vitest";
import { z } from "zod";
import { exportVisit } from "../../src/record/bundle.ts";
import { ALTERED, bundleIn } from "../support/demo-signed.ts";
import { type App, withApp } from "./app.ts";

// What the app signs is checked by Node's own cryptography and a second writer of RFC 8785, with nothing of the app's.

const button = (app: App, name: string | RegExp) => app.page.getByRole("button", { name });

/** RFC 8785 by the letter, for texts without lone surrogates: ECMAScript's numbers and texts, names in the order of UTF-16 units. */
function canonical(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonical).join(",")}]`;
  if (typeof value !== "object" || value === null) return JSON.stringify(value);
  const fields = Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1));
  return `{${fields.map(([name, each]) => `${JSON.stringify(name)}:${canonical(each)}`).join(",")}}`;
}

const hash = (value: unknown) => createHash("sha256").update(canonical(value)).digest("base64url");

const Bundle = z.looseObject({
  head: z.looseObject({ id: z.string() }),
  entries: z.array(z.looseObject({ seq: z.number() })),
  integrity: z.strictObject({ links: z.array(z.string()), signatures: z.array(z.string()) }),
});
const Header = z.strictObject({
  alg: z.literal("ES256"),
  jwk: z.strictObject({ kty: z.literal("EC"), crv: z.literal("P-256"), x: z.string(), y: z.string() }),
});

/** Verifies a bundle as the documents for developers say; the key that signed it, and what it signed. */
function checked(text: string) {
  const { head, entries, integrity } = Bundle.parse(JSON.parse(text));
  let link = hash({ head });
  const links = [link];
  for (const entry of entries) {
    link = hash({ entry, previous: link });
    links.push(link);
  }
  expect(integrity.links).toEqual(links);
  expect(integrity.signatures).toHaveLength(1);
  const [header = "", payload = "", signature = ""] = integrity.signatures[0]?.split(".") ?? [];
  const { jwk } = Header.parse(JSON.parse(Buffer.from(header, "base64url").toString()));
  const key = createPublicKey({ key: jwk, format: "jwk" });
  const isValid = (signed: string) =>
    verify(
      "sha256",
      Buffer.from(signed),
      { key, dsaEncoding: "ieee-p1363" },
      Buffer.from(signature, "base64url"),
    );
  expect([isValid(`${header}.${payload}`), isValid(`${header}.${payload}A`)]).toEqual([true, false]);
  const statement: unknown = JSON.parse(Buffer.from(payload, "base64url").toString());
  expect(statement).toEqual({
    format: "burnerside-statement/1",
    visit: head.id,
    entries: entries.length,
    link,
    ownFrom: 0,
    at: expect.any(String),
  });
  return { thumbprint: hash(jwk), payload: Buffer.from(payload, "base64url").toString(), statement };
}

test("a finished visit is exported signed; the record and the settings name the same key", () =>
  withApp({}, async (app) => {
    await app.startVisit();
    for (const phrase of ["high fire CO2 nine point two, CO forty", "note Überdruck “ok” 😀", "finish visit"])
      await app.type(phrase);
    const [download] = await Promise.all([
      app.page.waitForEvent("download"),
      button(app, "Export visit").click(),
    ]);
    const { thumbprint, payload, statement } = checked(await readFile(await download.path(), "utf8"));
    expect(payload).toBe(canonical(statement));
    const signs = Buffer.from(thumbprint, "base64url").toString("hex").toUpperCase().slice(0, 20);
    const shown = signs.match(/.{4}/g)?.join(" ") ?? "";

    await button(app, "To the start").click();
    await app.page.getByText("Settings", { exact: true }).click();
    await button(app, "Show this device's key").click();
    await app.page.getByText(`Key of this device: ${shown}`).waitFor();

    await button(app, /^Visit record: /).click();
    await app.page.locator(".record-plate").waitFor();
    const log = await app.text(".record-log");
    expect(log).toMatch(/The log is\s*whole/);
    expect(log).toContain(`with key ${shown} on `);
    expect(await app.page.locator(".record-notice").count()).toBe(0);
    expect(app.errors).toEqual([]);
  }));

test("an altered visit is kept as it came, and import, record and export say so", () =>
  withApp({}, async (app) => {
    const visit = bundleIn(ALTERED);
    const text = exportVisit(visit);
    const file = { name: "altered.json", mimeType: "application/json", buffer: Buffer.from(text) };
    await app.page.locator("input[type=file]").setInputFiles(file);
    const told = app.page.locator(".notice-problem[role=alert]");
    await told.waitFor();
    const sentences = (await told.textContent()) ?? "";
    const misfit = "entry 4 (“CO2 eight point three”) is not as it was logged.";
    expect(sentences).toContain("Visit kept: Altered (invented).");
    expect(sentences).toContain(`Its log is altered: ${misfit}`);
    expect(sentences).toContain("nothing of it was mended");

    await button(app, /^Visit record: /).click();
    await app.page.locator(".record-plate").waitFor();
    expect(await app.text(".record-notice")).toContain(misfit.slice(1));
    expect(await app.text(".record-log")).toMatch(/The log is\s*altered/);

    await button(app, "Look it over").click();
    expect(await app.text(".log-altered")).toContain(misfit.slice(1));

    await button(app, "To the start").click();
    await button(app, /^Export/)
      .first()
      .click();
    const [download] = await Promise.all([
      app.page.waitForEvent("download"),
      button(app, "Save: Visit bundle").click(),
    ]);
    await app.page.getByText(`Its log is altered: ${misfit}`).last().waitFor();
    expect(await readFile(await download.path(), "utf8")).toBe(text);

    await button(app, /^Delete/).click();
    await button(app, "Export it first").click();
    await app.page.getByText(/^Exported: .* Its log is altered: entry 4 /).waitFor();
    expect(app.errors).toEqual([]);
  }));
