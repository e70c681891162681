import { useSignal } from "@preact/signals";
import { shownUnit } from "../../../measure/unit.ts";
import { ROOM_CO } from "../../../record/phases.ts";
import { shownBody } from "../../../record/shown-body.ts";
import { shownLimit, VERDICT_WORDS } from "../../../record/wording.ts";
import type { Amendment } from "../../../visit/by-hand.ts";
import type { LoggedItem, VisitState } from "../../../visit/state.ts";
import type { Afterwards } from "../../afterwards/afterwards.ts";
import { candidatesOf, type Pick } from "../../afterwards/rivals.ts";
import type { Field, ReviewThing as Thing } from "../../afterwards/rows.ts";
import { laterPart } from "../../later.tsx";
import { once } from "../../once.ts";
import { Mark } from "../mark.tsx";
import type { NoteProps } from "./note-meaning.tsx";

interface ThingProps {
  readonly afterwards: Afterwards;
  readonly thing: Thing;
}

interface ReviewThingProps extends ThingProps {
  readonly state: VisitState;
  /** As it stands, where it is an item. */
  readonly item: LoggedItem | undefined;
}

const loadMeaning = once(() => import("./note-meaning.tsx"));

const NoteText = laterPart<NoteProps>(
  async () => (await loadMeaning()).NoteText,
  ({ item }) => shownBody(item.body),
);

const NoteMeaning = laterPart<NoteProps>(
  async () => (await loadMeaning()).NoteMeaning,
  (_, failed) => failed && <p role="status">What the note asks for could not be loaded.</p>,
);

/** One thing of an utterance: what was understood, said and assumed, its verdict, what became of it, and what can be done. */
export function ReviewThing({ afterwards, thing, state, item }: ReviewThingProps) {
  const { understood, fields, fate, verdict, needs, own } = thing;
  const isOver = fate.kind === "struck" || fate.kind === "mended";
  const note =
    own && item?.body.kind === "note" && item.struckBy === null ? { afterwards, state, item } : null;
  return (
    <li class="thing">
      <p class="thing-name">
        <strong>{isOver ? <s>{understood}</s> : note ? <NoteText {...note} /> : understood}</strong>
        {note && isOver ? (
          <span class="thing-now">
            now <NoteText {...note} />
          </span>
        ) : (
          <FateWord thing={thing} />
        )}
      </p>
      {fields.length > 0 && <Fields fields={fields} />}
      {verdict && (
        <p class={`thing-verdict thing-${verdict.verdict}`}>
          {verdict.quantity === "co-ambient" ? (
            ROOM_CO
          ) : (
            <>
              <Mark verdict={verdict.verdict} /> {VERDICT_WORDS[verdict.verdict]}
            </>
          )}
          {verdict.limit && (
            <span class="faint">
              {" "}
              limit {shownLimit(verdict.limit)} {shownUnit(verdict.unit)}
            </span>
          )}
        </p>
      )}
      {needs.length > 0 && (
        <ul class="needs" aria-label={`Why to look at ${understood}`}>
          {needs.map(({ code, text }) => (
            <li key={code}>{text}</li>
          ))}
        </ul>
      )}
      {note && <NoteMeaning {...note} />}
      {own && (
        <Mending
          key={fate.kind}
          afterwards={afterwards}
          thing={thing}
          words={item?.body.kind === "note" ? item.body.text : ""}
        />
      )}
    </li>
  );
}

function FateWord({ thing: { fate } }: { readonly thing: Thing }) {
  switch (fate.kind) {
    case "stands":
      return null;
    case "struck":
      return <span class="tag">struck</span>;
    case "mended":
      return <span class="thing-now">now {fate.now}</span>;
    case "open":
      return <span class="tag">open</span>;
    case "settled":
      return <span class="tag">{fate.how}</span>;
  }
}

/** What was said and what was assumed, field by field. */
function Fields({ fields }: { readonly fields: readonly Field[] }) {
  return (
    <ul class="fields-said">
      {fields.map(({ name, value, origin, isOld }) =>
        isOld ? (
          <li key={`${name} ${value}`} class="field-old">
            <s>
              {name} {value}
            </s>
          </li>
        ) : (
          <li key={`${name} ${value}`} class={`field-${origin}`}>
            {name} <b>{value}</b> <span>{origin}</span>
          </li>
        ),
      )}
    </ul>
  );
}

/** What a person can do with it, a note from its own words on: pick, type, strike, put back, leave out, confirm. */
function Mending({ afterwards, thing, words }: ThingProps & { readonly words: string }) {
  const { id, understood, fate, picks, needs } = thing;
  const open = useSignal(false);
  const text = useSignal(words);
  const refused = useSignal<{ problem: string; picks: readonly Pick[] } | null>(null);
  const isStruck = fate.kind === "struck";
  const isUnsure = fate.kind === "open" || fate.kind === "settled";
  const canChange = fate.kind !== "settled" || fate.how !== "yes was said to it";
  if (!canChange) return null;

  const amend = async (amendment: Amendment) => {
    const refusal = await afterwards.amend(amendment);
    refused.value = refusal && { problem: refusal.problem, picks: candidatesOf(refusal.candidates) };
    if (refusal) return;
    text.value = "";
    open.value = false;
  };
  const pick = (label: string, each: Pick) => (
    <button
      key={each.label}
      type="button"
      aria-label={`${label} ${each.label} instead of ${understood}`}
      onClick={() => void amend({ kind: "pick", id, item: each.item })}
    >
      {each.label}
      {each.confidence !== null && each.confidence >= 0.005 && (
        <span class="faint"> {Math.round(each.confidence * 100)} % likely</span>
      )}
    </button>
  );
  const button = (word: string, amendment: Amendment) => (
    <button type="button" aria-label={`${word}: ${understood}`} onClick={() => void amend(amendment)}>
      {word}
    </button>
  );
  const mendId = `mend-${id}`;
  return (
    <div class="mending">
      {!isStruck && fate.kind !== "settled" && picks.length > 0 && (
        <div class="row-buttons picks">
          <span>{isUnsure ? "Was it" : "Or was it"}</span>
          {picks.map((each) => pick("It was", each))}
        </div>
      )}
      <div class="row-buttons">
        {needs.length > 0 && !isUnsure && button("Right as it is", { kind: "confirm", id })}
        {isStruck && button("Put back", { kind: "put-back", id })}
        {fate.kind === "open" && button("Leave out", { kind: "leave-out", id })}
        <button
          type="button"
          class="plain"
          aria-expanded={open.value}
          aria-controls={mendId}
          aria-label={`Mend: ${understood}`}
          onClick={() => {
            open.value = !open.value;
          }}
        >
          {open.value ? "Close" : "Mend"}
        </button>
      </div>
      {open.value && (
        <form
          id={mendId}
          class="mend-form"
          onSubmit={(event) => {
            event.preventDefault();
            void amend({ kind: "mend", id, text: text.value });
          }}
        >
          <label class="field">
            <span>It was</span>
            <input
              type="text"
              autocomplete="off"
              autocapitalize="off"
              enterkeyhint="done"
              placeholder={isUnsure ? "CO2 9.4" : "9.4, low fire, quarter out …"}
              value={text.value}
              onInput={(event) => {
                text.value = event.currentTarget.value;
              }}
            />
          </label>
          <button type="submit" class="main-button">
            Mend
          </button>
          {!isStruck && !isUnsure && button("Strike", { kind: "strike", id })}
        </form>
      )}
      {refused.value && (
        <div role="alert">
          <p class="alert">{refused.value.problem}</p>
          {refused.value.picks.length > 0 && (
            <div class="row-buttons">{refused.value.picks.map((each) => pick("Make it", each))}</div>
          )}
        </div>
      )}
    </div>
  );
}
