import type { Session } from "../../boiler/session.ts";

/** That this visit goes on in another window, too; until the next phrase of this one. */
export function AddedElsewhere({ session }: { readonly session: Session }) {
  const added = session.addedElsewhere.value;
  if (added === 0) return null;
  return (
    <p class="notice notice-done" role="status">
      Another window has added to this visit: {added === 1 ? "one entry" : `${added} entries`}, at the top of
      the log below. Go on in one of them, and close the other.
    </p>
  );
}
