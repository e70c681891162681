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
  | { readonly kind: "office" }
  | { readonly kind: "sheets" }
  /** One limits sheet to edit; null for a new one. */
  | { readonly kind: "sheet"; readonly id: string | null };

/** The address of a place, as the part behind "#". */
export function hashOf(place: Place): string {
  switch (place.kind) {
    case "start":
      return "";
    case "welcome":
    case "boiler":
    case "office":
    case "sheets":
      return `/${place.kind}`;
    case "afterwards":
    case "record":
      return `/${place.kind}/${encodeURIComponent(place.visitId)}`;
    case "sheet":
      return place.id === null ? "/sheet" : `/sheet/${encodeURIComponent(place.id)}`;
  }
}

/** The place of an address; an address of nothing is the start. */
export function placeOf(hash: string): Place {
  const [, kind = "", id = ""] = hash.replace(/^#/, "").split("/");
  switch (kind) {
    case "welcome":
    case "boiler":
    case "office":
    case "sheets":
      return { kind };
    case "afterwards":
    case "record": {
      const visitId = decoded(id);
      return visitId ? { kind, visitId } : { kind: "start" };
    }
    case "sheet":
      return { kind, id: decoded(id) || null };
    default:
      return { kind: "start" };
  }
}

function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return "";
  }
}
