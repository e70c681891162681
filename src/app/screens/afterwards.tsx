import { useMemo } from "preact/hooks";
import { harmless } from "../../measure/harmless.ts";
import { isoDay } from "../../measure/zone.ts";
import { openInShort, stillOpen } from "../../record/open.ts";
import { phaseLines } from "../../record/phases.ts";
import { dayTime, FUEL_NAMES } from "../../record/wording.ts";
import type { Utterance } from "../../visit/utterances.ts";
import { needsOf } from "../afterwards/needs.ts";
import { shownOf, utterances } from "../afterwards/rows.ts";
import type { Session } from "../boiler/session.ts";
import { ForTheRecord } from "../parts/afterwards/for-the-record.tsx";
import { LooksRight } from "../parts/afterwards/looks-right.tsx";
import { PhaseTable } from "../parts/afterwards/phase-table.tsx";
import { ReviewRow } from "../parts/afterwards/review-row.tsx";
import { Behind } from "../parts/behind.tsx";
import { Blocks } from "../parts/blocks.tsx";
import { HeldPhrases } from "../parts/boiler/held-phrases.tsx";
import { Trace } from "../parts/boiler/trace.tsx";
import { ExportButton, ExportPart } from "../parts/exports/export-part.tsx";
import { NoticeBoard } from "../parts/notice-board.tsx";
import { usePageTitle } from "../parts/page-title.ts";
import { titleOf } from "../start/visit-title.ts";
import type { Workplace } from "../workplace.ts";

interface AfterwardsProps {
  readonly workplace: Workplace;
  readonly visitId: string;
}

/** A visit looked through afterwards: as found and as left, what is open, all that was said, and who found it right. */
export function Afterwards({ workplace }: AfterwardsProps) {
  const session = workplace.afterwards.session.value;
  return session && <Opened workplace={workplace} session={session} />;
}

interface OpenedProps {
  readonly workplace: Workplace;
  readonly session: Session;
}

/** How high an utterance is before it was drawn, px. */
const ROW_HEIGHT = 190;

function Opened({ workplace, session }: OpenedProps) {
  const { head } = session.visit.value;
  usePageTitle(`${titleOf(head)}: looked over afterwards`);
  // Each on its own: of a long visit all of them together would hold up what is tapped.
  const parts = useMemo(
    () => (
      <>
        <Behind draw={() => <AsFound workplace={workplace} session={session} />} />
        <Behind draw={() => <StillOpen workplace={workplace} session={session} />} />
        <Behind draw={() => <Said workplace={workplace} session={session} />} />
      </>
    ),
    [session],
  );
  return (
    <main class="page afterwards" aria-busy={session.pending.value > 0}>
      <header class="visit-head">
        <h1>{titleOf(head)}</h1>
        <p>
          Looked over afterwards: {dayTime(head.startedAt, head.zone)}, {FUEL_NAMES[head.fuel].toLowerCase()}
          {head.sheet ? head.title && `, ${harmless(head.sheet.title)}` : ", no sheet: nothing was judged"}
        </p>
      </header>
      <HeldPhrases workplace={workplace} session={session} />
      <NoticeBoard workplace={workplace} />
      {workplace.afterwards.altered.value !== "" && (
        <p class="notice notice-problem log-altered" role="alert">
          <bdi>{workplace.afterwards.altered.value}</bdi>
        </p>
      )}
      <nav class="visit-foot" aria-label="Visit">
        <button type="button" onClick={() => void workplace.goTo({ kind: "start" })}>
          To the start
        </button>
        <button type="button" onClick={() => void workplace.goOn(head.id)}>
          Go on at the boiler
        </button>
        <ExportButton workplace={workplace} head={head}>
          Export visit
        </ExportButton>
        <button type="button" onClick={() => void workplace.goTo({ kind: "record", visitId: head.id })}>
          Visit record
        </button>
      </nav>
      <ExportPart workplace={workplace} head={head} />
      {parts}
    </main>
  );
}

/** All that was said, or what of it needs a look; and who found it right. */
function Said({ workplace, session }: OpenedProps) {
  const { afterwards, clips } = workplace;
  const visit = session.visit.value;
  const state = session.state.value;
  const verdicts = afterwards.verdicts.value;
  const judged = afterwards.judged.value;
  const only = afterwards.onlyNeeds.value;
  const shown = useMemo(() => {
    const known = { verdicts, rivals: afterwards.rivals };
    return shownOf(visit, state, needsOf(visit, state, known), known);
  }, [visit, state, verdicts]);
  const warned = session.warned.value;
  const open = useMemo(
    () => openInShort(state.finished, stillOpen(state, warned, workplace.now())),
    [state, warned],
  );
  const all = utterances(visit);
  const look = useMemo(
    () => all.filter((together) => together.some(({ id }) => shown.needs.has(id))),
    [shown],
  );
  return (
    <>
      <section class="review" aria-label="What was said">
        <h2>What was said</h2>
        <fieldset class="options filter">
          <legend>Show</legend>
          <Filter name="Everything" count={all.length} on={!only} choose={() => choose(false)} />
          <Filter name="Needs a look" count={look.length} on={only} choose={() => choose(true)} />
        </fieldset>
        {!judged && <p role="status">Going through the visit …</p>}
        {clips.trouble.value !== null && <p role="status">{clips.trouble.value}</p>}
        {all.length === 0 && <p>Nothing was said.</p>}
        {only && judged && look.length === 0 && all.length > 0 && <p>Nothing that was heard needs a look.</p>}
        <Blocks
          key={String(only)}
          rows={only ? look : all}
          rowHeight={ROW_HEIGHT}
          draw={(together: Utterance) => (
            <ReviewRow key={together[0].id} workplace={workplace} together={together} shown={shown} />
          )}
        />
      </section>
      <ForTheRecord
        key={JSON.stringify(state.details)}
        workplace={workplace}
        details={state.details}
        day={isoDay(visit.head.startedAt, visit.head.zone)}
      />
      <section class="review" aria-label="Looks right">
        <h2>Looks right</h2>
        <LooksRight workplace={workplace} visit={visit} state={state} needs={look.length} open={open} />
      </section>
    </>
  );

  function choose(needs: boolean): void {
    afterwards.onlyNeeds.value = needs;
  }
}

interface FilterProps {
  readonly name: string;
  readonly count: number;
  readonly on: boolean;
  readonly choose: () => void;
}

function Filter({ name, count, on, choose }: FilterProps) {
  return (
    <label class="option">
      <input type="radio" name="filter" checked={on} onChange={choose} /> {name} ({count})
    </label>
  );
}

/** As found beside as left. */
function AsFound({ workplace, session }: OpenedProps) {
  const state = session.state.value;
  const lines = useMemo(() => phaseLines(state, workplace.now()), [state]);
  return (
    <section class="review" aria-label="As found, as left">
      <h2>As found, as left</h2>
      <PhaseTable lines={lines} />
      <Behind draw={() => <Trace state={state} />} />
    </section>
  );
}

function StillOpen({ workplace, session }: OpenedProps) {
  const state = session.state.value;
  const warned = session.warned.value;
  const open = useMemo(() => stillOpen(state, warned, workplace.now()), [state, warned]);
  return (
    <section class="review" aria-label="Still open">
      <h2>Still open</h2>
      {open.length === 0 && <p>Nothing is open.</p>}
      {open.map(({ name, sentences }) => (
        <div key={name} class="open-part">
          <h3>{name}</h3>
          <ul>
            {sentences.map((text, place) => (
              <li key={`${place} ${text}`}>{text}</li>
            ))}
          </ul>
        </div>
      ))}
    </section>
  );
}
