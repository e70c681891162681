import { useSignal } from "@preact/signals";
import { shownBody } from "../../../record/shown-body.ts";
import type { Amendment } from "../../../visit/by-hand.ts";
import type { Session } from "../../boiler/session.ts";
import { Alert } from "../alert.tsx";

interface HeardThingProps {
  readonly session: Session;
  /** Of the entry that the utterance gave. */
  readonly id: string;
}

/** One thing that was understood, or was not: struck or put back with a tap, mended by typing what it was. */
export function HeardThing({ session, id }: HeardThingProps) {
  const text = useSignal("");
  const problem = useSignal<string | null>(null);
  const { items, unsure } = session.state.value;
  const body = session.visit.value.entries.find((entry) => entry.id === id)?.body;
  // A mend by voice is of the thing that it mended.
  const of = body?.kind === "replace" ? body.target : id;
  const item = items.find((one) => one.id === of);
  const asked = unsure.find((one) => one.id === of);
  if (!item && !asked) return null;

  const amend = async (amendment: Amendment) => {
    const refusal = await session.amend(amendment);
    problem.value = refusal?.problem ?? null;
    if (!refusal) text.value = "";
  };
  const mend = (event: SubmitEvent) => {
    event.preventDefault();
    if (text.value.trim() !== "") void amend({ kind: "mend", id: of, text: text.value });
  };
  const name = item ? shownBody(item.body) : `“${asked?.said ?? ""}”`;
  const isStruck = item ? item.struckBy !== null : asked?.settled !== null;
  return (
    <li class="heard-thing">
      <strong>{isStruck ? <s>{name}</s> : name}</strong>
      <form class="heard-mend" onSubmit={mend}>
        {!isStruck && (
          <>
            <label>
              <span>It was</span>
              <input
                type="text"
                autocomplete="off"
                autocapitalize="off"
                enterkeyhint="done"
                aria-label={`What “${name}” was`}
                value={text.value}
                onInput={(event) => {
                  text.value = event.currentTarget.value;
                }}
              />
            </label>
            <button type="submit">Mend</button>
          </>
        )}
        {item && (
          <button
            type="button"
            onClick={() => void amend({ kind: isStruck ? "put-back" : "strike", id: of })}
          >
            {isStruck ? "Put back" : "Strike"}
          </button>
        )}
        {asked && !isStruck && (
          <button type="button" onClick={() => void amend({ kind: "leave-out", id: of })}>
            Leave out
          </button>
        )}
      </form>
      <Alert>{problem.value}</Alert>
    </li>
  );
}
