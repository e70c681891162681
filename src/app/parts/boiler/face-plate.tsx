import type { ComponentChildren } from "preact";
import { direction, firingName, screwName, shownDistance, stepSaid } from "../../../record/wording.ts";
import { faceOf, fitOf, sizeOf, type TurnFace, type VerdictLine } from "../../boiler/face.ts";
import { scaleOf } from "../../boiler/scale.ts";
import type { Session } from "../../boiler/session.ts";
import { Mark } from "../mark.tsx";
import { Plate } from "../plate.tsx";
import { AsLeft } from "./as-left.tsx";
import { Scale } from "./scale.tsx";
import { ScrewTurn } from "./screw-turn.tsx";

interface FacePlateProps {
  readonly session: Session;
  /** Whether its warnings are given for the first time: only those are announced. */
  readonly isNews: boolean;
  readonly children?: ComponentChildren;
}

/** The plate at the boiler: one large thing, its verdicts, and the mode the boiler is in. */
export function FacePlate({ session, isNews, children }: FacePlateProps) {
  const { reply, at } = session.given.value;
  const state = session.state.value;
  const face = faceOf(reply);
  // Under a warning, and before a reading has settled, it would only be in the way.
  const isDrawn = face.large.kind === "turn" || face.large.kind === "reading";
  const scale = isDrawn ? scaleOf(state, reply, at) : null;
  const firing = state.firing?.firing;
  return (
    <Plate label="Now" class={`face face-${face.large.kind}`}>
      <p class="mode">
        {state.finished ? (
          <span class="firing">As left</span>
        ) : (
          <>
            {firing ? (
              <span class="firing">{firingName(firing)}</span>
            ) : (
              <span class="firing-unknown">Firing not said yet</span>
            )}
            <span class="stage">{stepSaid(reply.judgement.stage, firing ?? null)}</span>
          </>
        )}
      </p>
      <div class="face-body">
        <Large face={face.large} isNews={isNews} />
        {face.turnBelow && <Turn turn={face.turnBelow} small />}
        {face.headline && <p class="headline-small">{face.headline}</p>}
        {face.verdicts.length > 0 && (
          <ul class="verdicts">
            {face.verdicts.map((line) => (
              <VerdictRow key={`${line.name} ${line.value}`} line={line} />
            ))}
          </ul>
        )}
        {scale && <Scale scale={scale} />}
        {state.finished && <AsLeft state={state} now={at} />}
        {face.detail && <p class="detail">{face.detail}</p>}
        {children}
      </div>
    </Plate>
  );
}

interface LargeProps {
  readonly face: ReturnType<typeof faceOf>["large"];
  readonly isNews: boolean;
}

function Large({ face, isNews }: LargeProps) {
  switch (face.kind) {
    case "warning":
      return (
        <div
          class={`warning warning-as-${face.word}`}
          style={{ ...fitOf(face.texts) }}
          role={isNews ? "alert" : "group"}
        >
          <p class="warning-word">{face.word}</p>
          {face.texts.map((text) => (
            <p key={text} class="warning-text">
              {text}
            </p>
          ))}
        </div>
      );
    case "stop":
      return (
        <div class="warning warning-as-warning" style={{ ...fitOf([face.reason]) }} role="alert">
          <p class="warning-word">Stop</p>
          <p class="warning-text">{face.reason}</p>
        </div>
      );
    case "turn":
      return <Turn turn={face.turn} />;
    case "reading":
      return (
        <div class={`verdict-${face.line.verdict}`}>
          <p class="reading-name">{face.line.name}</p>
          <p class={`large large-${sizeOf(face.line.value)}`}>{face.line.value}</p>
          <p class="verdict">
            <Ruling line={face.line} />
          </p>
        </div>
      );
    case "wait":
      return <p class="headline-small">{face.headline}</p>;
    case "plain":
      return <p class={`large large-${sizeOf(face.headline)}`}>{face.headline}</p>;
  }
}

function Turn({ turn, small }: { readonly turn: TurnFace; readonly small?: boolean }) {
  return (
    <div class={small ? "turn turn-small" : "turn"}>
      <ScrewTurn turns={turn.turns} />
      <div>
        <p class="turn-screw">{screwName(turn.adjuster)}</p>
        <p class="turn-distance">{shownDistance(turn.turns)}</p>
        <p class="turn-way">{direction(turn.turns)}</p>
      </div>
    </div>
  );
}

function VerdictRow({ line }: { readonly line: VerdictLine }) {
  return (
    <li class={`verdict verdict-${line.verdict}`}>
      <span class="verdict-value">
        {line.name} {line.value}
      </span>
      <Ruling line={line} />
    </li>
  );
}

/** Mark, word and limit. */
function Ruling({ line }: { readonly line: VerdictLine }) {
  return (
    <>
      {line.word && (
        <span class="verdict-word">
          <Mark verdict={line.verdict} /> {line.word}
        </span>
      )}
      {line.limit && <span class="verdict-limit">limit {line.limit}</span>}
    </>
  );
}
