/** Which screen is open. Each has an address of its own, so that the browser's back button works. */
export type Place =
  | { readonly kind: "start" }
  /** The first run: cautions, microphone, a few choices. */
  | { readonly kind: "welcome" }
  /** The running visit. */
  | { readonly kind: "boiler" }
  | { readonly kind: "afterwards"; readonly visitId: string }
  /** The record of a visit, to print and to hand over. */
  | { readonly kind: "record"; readonly visitId: string }
  /** The visits of many, taken in from their bundles. */
  | { readonly kind: "office"; readonly part: OfficePart }
  | { readonly kind: "sheets" }
  /** A voice is taught: of one of the people again, or null for somebody new. */
  | { readonly kind: "own-voice"; readonly id: string | null }
  /** One limits sheet to edit; null for a new one. */
  | { readonly kind: "sheet"; readonly id: string | null };

/** What of the office is shown. */
export type OfficePart =
  | { readonly kind: "visits" }
  | { readonly kind: "visit"; readonly id: string }
  | { readonly kind: "appliances" }
  /** One appliance, by its key (record/office/drift.ts). */
  | { readonly kind: "appliance"; readonly id: string }
  | { readonly kind: "follow-ups" };

/** The address of a place, as the part behind "#". */
export function hashOf(place: Place): string {
  switch (place.kind) {
    case "start":
      return "";
    case "welcome":
    case "boiler":
    case "sheets":
      return `/${place.kind}`;
    case "office":
      return officeHash(place.part);
    case "afterwards":
    case "record":
      return `/${place.kind}/${encoded(place.visitId)}`;
    case "sheet":
    case "own-voice":
      return place.id === null ? `/${place.kind}` : `/${place.kind}/${encoded(place.id)}`;
  }
}

function officeHash(part: OfficePart): string {
  switch (part.kind) {
    case "visits":
      return "/office";
    case "appliances":
    case "follow-ups":
      return `/office/${part.kind}`;
    case "visit":
    case "appliance":
      return `/office/${part.kind}/${encoded(part.id)}`;
  }
}

/** Of what no address can hold, halves of surrogate pairs, signs stand in; nothing that is kept has such an id. */
function encoded(id: string): string {
  return encodeURIComponent(id.toWellFormed());
}

/** The place of an address; an address of nothing is the start. */
export function placeOf(hash: string): Place {
  const [, kind = "", id = "", of = ""] = hash.replace(/^#/, "").split("/");
  switch (kind) {
    case "welcome":
    case "boiler":
    case "sheets":
      return { kind };
    case "office":
      return { kind, part: officePart(id, decoded(of)) };
    case "afterwards":
    case "record": {
      const visitId = decoded(id);
      return visitId ? { kind, visitId } : { kind: "start" };
    }
    case "sheet":
    case "own-voice":
      return { kind, id: decoded(id) || null };
    default:
      return { kind: "start" };
  }
}

function officePart(kind: string, id: string): OfficePart {
  switch (kind) {
    case "appliances":
    case "follow-ups":
      return { kind };
    case "visit":
    case "appliance":
      return id ? { kind, id } : { kind: "visits" };
    default:
      return { kind: "visits" };
  }
}

function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return "";
  }
}
