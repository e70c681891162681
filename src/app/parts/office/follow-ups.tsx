import { useSignal } from "@preact/signals";
import type { DueStand } from "../../../record/office/follow-ups.ts";
import { dayTime, shownDay } from "../../../record/wording.ts";
import type { ListedFollowUp } from "../../office/follow-up-list.ts";
import type { Office } from "../../office/office.ts";
import { counted, DUE_WORDS } from "../../office/words.ts";
import { hashOf } from "../../place.ts";
import type { Workplace } from "../../workplace.ts";
import { Blocks } from "../blocks.tsx";

const ORDER: readonly DueStand[] = ["overdue", "today", "later", "undated"];

/** How high a follow-up is before it was drawn, px. */
const ROW_HEIGHT = 170;

interface FollowUpsProps {
  readonly workplace: Workplace;
  readonly office: Office;
}

/** What the notes of all visits leave to be done, overdue first; each can be marked as done by hand. */
export function FollowUps({ workplace, office }: FollowUpsProps) {
  const { officeName, reviewer } = workplace.settings.value;
  const name = useSignal(officeName || reviewer);
  const missing = useSignal(false);
  const all = office.followUps.value;
  const open = all.filter(({ done }) => done === null);
  const done = all.filter((each) => each.done !== null);
  const mark = (each: ListedFollowUp) => {
    missing.value = !/\S/.test(name.value);
    if (missing.value) {
      document.getElementById("done-by")?.focus();
      return;
    }
    void office.markDone(each.followUp, name.value);
    const kept = name.value.trim();
    if (kept !== workplace.settings.value.officeName) void workplace.changeSettings({ officeName: kept });
  };
  if (all.length === 0) return <p>No visit of the office has a follow-up.</p>;
  return (
    <>
      <p role="status">
        {open.length === 0 ? "None is open." : `${counted(open.length, "follow-up")} open.`}
      </p>
      <div class="done-by">
        <label class="field">
          <span>Your name, for what you mark as done</span>
          <input
            id="done-by"
            type="text"
            autocomplete="name"
            maxLength={80}
            value={name.value}
            aria-describedby={missing.value ? "done-by-problem" : undefined}
            onInput={(event) => {
              name.value = event.currentTarget.value;
              missing.value = false;
            }}
          />
        </label>
        {missing.value && (
          <p id="done-by-problem" class="alert" role="alert">
            First say who marks it as done.
          </p>
        )}
      </div>
      {ORDER.map((stand) => (
        <Group
          key={stand}
          heading={DUE_WORDS[stand]}
          rows={open.filter((each) => each.stand === stand)}
          draw={(each) => (
            <Row key={each.followUp.key} each={each}>
              <button
                type="button"
                aria-label={`Mark as done: ${each.followUp.short}, ${each.visit.title}`}
                onClick={() => mark(each)}
              >
                Mark as done
              </button>
            </Row>
          )}
        />
      ))}
      <Group
        heading="Done"
        rows={done}
        draw={(each) => (
          <Row key={each.followUp.key} each={each}>
            <button
              type="button"
              aria-label={`Not done after all: ${each.followUp.short}, ${each.visit.title}`}
              onClick={() => void office.undoDone(each.followUp)}
            >
              Not done after all
            </button>
          </Row>
        )}
      />
    </>
  );
}

interface GroupProps {
  readonly heading: string;
  readonly rows: readonly ListedFollowUp[];
  readonly draw: (each: ListedFollowUp) => preact.JSX.Element;
}

function Group({ heading, rows, draw }: GroupProps) {
  if (rows.length === 0) return null;
  return (
    <section class="follow-up-group" aria-label={heading}>
      <h2>
        {heading} ({rows.length.toLocaleString("en-GB")})
      </h2>
      <Blocks rows={rows} rowHeight={ROW_HEIGHT} draw={draw} />
    </section>
  );
}

interface RowProps {
  readonly each: ListedFollowUp;
  readonly children: preact.JSX.Element;
}

function Row({ each: { followUp, visit, done, visitedSince }, children }: RowProps) {
  const { row } = visit;
  const what = followUp.short;
  const where = [row.place, row.appliance && `appliance ${row.appliance}`].filter(Boolean).join(", ");
  return (
    <li class="follow-up">
      <p class="follow-up-what">
        <strong>{what}</strong>
        <span class="follow-up-due">{dueWords(followUp)}</span>
      </p>
      {followUp.note !== what && <p class="follow-up-note">“{followUp.note}”</p>}
      <p class="faint">
        <a href={`#${hashOf({ kind: "office", part: { kind: "visit", id: visit.id } })}`}>{visit.title}</a>
        {where && `, ${where}`}; noted{row.technician && ` by ${row.technician}`},{" "}
        {dayTime(followUp.at, row.zone)}
        {followUp.by === "words" ? ", from the words of the note" : ", as a reviewer has it"}
      </p>
      {visitedSince && (
        <p class="follow-up-since">
          Visited since:{" "}
          <a href={`#${hashOf({ kind: "office", part: { kind: "visit", id: visitedSince.id } })}`}>
            <span class="for-ears">{visitedSince.title}, </span>
            {shownDay(visitedSince.day)}
          </a>
          . Look whether this was done.
        </p>
      )}
      {done && (
        <p>
          Done: {done.by}, {dayTime(done.at, row.zone)}
        </p>
      )}
      <div class="row-buttons">{children}</div>
    </li>
  );
}

function dueWords({ due, dueWords: words }: ListedFollowUp["followUp"]): string {
  if (due !== null) return `${shownDay(due)}${words === null ? "" : ` (“${words}”)`}`;
  return words === null ? "no day said" : `“${words}”`;
}
