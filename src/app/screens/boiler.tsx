import { useComputed } from "@preact/signals";
import { useEffect, useMemo } from "preact/hooks";
import { harmless } from "../../measure/harmless.ts";
import { shownText } from "../../measure/text.ts";
import { FUEL_NAMES } from "../../record/wording.ts";
import { answerNow } from "../boiler/answer-now.ts";
import { sizeOf } from "../boiler/face.ts";
import type { Session } from "../boiler/session.ts";
import { signalWordOf } from "../boiler/signal-word.ts";
import { warningStrip } from "../boiler/warning-strip.ts";
import { laterPart } from "../later.tsx";
import { Behind } from "../parts/behind.tsx";
import { Acknowledge } from "../parts/boiler/acknowledge.tsx";
import { AddedElsewhere } from "../parts/boiler/added-elsewhere.tsx";
import { ClockSet } from "../parts/boiler/clock-set.tsx";
import { Countdown } from "../parts/boiler/countdown.tsx";
import { EarZone } from "../parts/boiler/ear-zone.tsx";
import { FacePlate } from "../parts/boiler/face-plate.tsx";
import { HeardLine } from "../parts/boiler/heard-line.tsx";
import { HeardNothing } from "../parts/boiler/heard-nothing.tsx";
import { HeldPhrases } from "../parts/boiler/held-phrases.tsx";
import { Log } from "../parts/boiler/log.tsx";
import { TextLine } from "../parts/boiler/text-line.tsx";
import type { Trace as DrawnTrace } from "../parts/boiler/trace.tsx";
import { WarningStrip } from "../parts/boiler/warning-strip.tsx";
import { CautionsInReach } from "../parts/cautions.tsx";
import { NoticeBoard } from "../parts/notice-board.tsx";
import { usePageTitle } from "../parts/page-title.ts";
import { titleOf } from "../start/visit-title.ts";
import type { Workplace } from "../workplace.ts";

/** Below the first screenful, and nothing before two moments. */
const Trace = laterPart<Parameters<typeof DrawnTrace>[0]>(
  async () => (await import("../parts/boiler/trace.tsx")).Trace,
  () => null,
);

interface BoilerProps {
  readonly workplace: Workplace;
  readonly session: Session;
}

/** At the boiler: one large thing, the answer, the ear, and the log below. */
export function Boiler({ workplace, session }: BoilerProps) {
  const visit = session.visit.value;
  const { head } = visit;
  const given = session.given.value;
  const { reply } = given;
  const state = session.state.value;
  const warned = session.warned.value;
  const strip = useMemo(() => warningStrip(warned, state, given), [warned, state, given]);
  const steering = workplace.steering.value;
  const steered = steering && <steering.Part workplace={workplace} session={session} steering={steering} />;
  // A value that is given figure by figure is the large thing, unless something is to be warned of.
  const spells = steering !== null && steering.spelling.value.kind !== "off";
  const inPlace = spells && reply.judgement.warnings.length === 0;
  usePageTitle(titleOf(head));
  // Nothing stands above what can kill.
  const isDanger = signalWordOf(reply.judgement.warnings) === "danger";

  // Its loudness changes all the while and draws nothing here.
  const ear = useComputed(() => workplace.listening.state.value.kind).value;
  const answer = answerNow(reply.answer, session.told.value, ear);

  // What is new is always at the top, wherever the page was.
  const heard = session.heard.value;
  useEffect(() => scrollTo({ top: 0 }), [reply, heard]);
  // Drawn anew only where the visit has changed: it may be long.
  const below = useMemo(
    () => (
      <>
        {state.items.length > 1 && <Behind draw={() => <Trace state={state} />} />}
        <Behind draw={() => <Log workplace={workplace} visit={visit} />} />
      </>
    ),
    [visit, state],
  );

  // Told without drawing anything anew.
  const busy = useComputed(() => (session.pending.value > 0 ? "true" : "false"));
  return (
    <main class="page boiler" aria-busy={busy}>
      <div class="first">
        <header class="visit-head">
          <h1>{titleOf(head)}</h1>
          <p>
            {FUEL_NAMES[head.fuel]}
            {head.sheet ? head.title && `, ${harmless(head.sheet.title)}` : ", no sheet: nothing is judged"}
          </p>
        </header>
        <div class="seen">
          <HeldPhrases workplace={workplace} session={session} />
          <NoticeBoard workplace={workplace} />
          <ClockSet session={session} />
          <AddedElsewhere session={session} />
          {!isDanger && <HeardNothing heard={heard} />}
          {!isDanger && <WarningStrip lines={strip.lines} />}
          {inPlace ? (
            steered
          ) : (
            <FacePlate session={session} isNews={strip.isNews}>
              <Countdown session={session} />
            </FacePlate>
          )}
          {isDanger && <HeardNothing heard={heard} />}
          {isDanger && <WarningStrip lines={strip.lines} />}
        </div>
        <div class="told">
          {!inPlace && (
            <p
              class={`answer answer-${sizeOf(answer)}${heard?.answered === false ? " answer-old" : ""}`}
              aria-live="assertive"
            >
              {shownText(answer)}
            </p>
          )}
          {!inPlace && steered}
          <HeardLine session={session} />
        </div>
        <div class="controls">
          <div class="elbow">
            <EarZone workplace={workplace} />
            {strip.canAcknowledge && (
              <Acknowledge
                onAcknowledge={() => {
                  void workplace.type("acknowledged").then(() => document.getElementById("phrase")?.focus());
                }}
              />
            )}
          </div>
          <TextLine onPhrase={(text) => void workplace.type(text)} />
        </div>
      </div>
      <nav class="visit-foot" aria-label="Visit">
        {!state.finished && (
          <button type="button" onClick={() => void workplace.type("finish visit")}>
            Finish visit
          </button>
        )}
        <button type="button" onClick={() => void workplace.goTo({ kind: "afterwards", visitId: head.id })}>
          Look it over
        </button>
        <button type="button" onClick={() => void workplace.exportVisit(head.id)}>
          Export visit
        </button>
        <button type="button" onClick={() => void workplace.leave()}>
          To the start
        </button>
      </nav>
      {below}
      <CautionsInReach />
    </main>
  );
}
