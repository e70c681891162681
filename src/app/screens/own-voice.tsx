import { useSignal } from "@preact/signals";
import { useEffect, useLayoutEffect } from "preact/hooks";
import type { OwnVoice as Model } from "../own-voice/create.ts";
import type { Pupil } from "../own-voice/teaching.ts";
import { focusHeading } from "../parts/focus-heading.ts";
import { NoticeBoard } from "../parts/notice-board.tsx";
import { BeforeReading } from "../parts/own-voice/before-reading.tsx";
import { Learned } from "../parts/own-voice/learned.tsx";
import { ReadAloud } from "../parts/own-voice/read-aloud.tsx";
import { useOwnVoice } from "../parts/own-voice/use-own-voice.ts";
import { usePageTitle } from "../parts/page-title.ts";
import type { Workplace } from "../workplace.ts";
import "../styles/own-voice.css";

interface OwnVoiceProps {
  readonly workplace: Workplace;
  /** Of one of the people again; null for somebody new. */
  readonly id: string | null;
}

/** A voice is taught: what is said before, the guided reading, the training, and what came of it. */
export function OwnVoice({ workplace, id }: OwnVoiceProps) {
  const { own, failed } = useOwnVoice(workplace);
  usePageTitle("Own voice");
  return (
    <main class="page own-voice" aria-busy={own === null && !failed}>
      <header class="sheet-head">
        <h1>Teach it your voice</h1>
      </header>
      <NoticeBoard workplace={workplace} />
      {failed && <p role="alert">Own voice could not be loaded. Open this page again with a network.</p>}
      {own && <Teach workplace={workplace} own={own} id={id} />}
    </main>
  );
}

function Teach({ workplace, own, id }: OwnVoiceProps & { readonly own: Model }) {
  const { people, teaching, newId } = own;
  const pupil = useSignal<Pupil>({ id: newId(), name: "" });
  const state = teaching.state.value;
  // What had the focus may be gone with what was shown before.
  useLayoutEffect(() => {
    if (document.activeElement === document.body) focusHeading();
  }, [state.kind]);
  useLayoutEffect(() => () => teaching.leave(), [teaching]);
  useEffect(() => {
    const known = id === null ? null : people.find(id);
    if (known) pupil.value = known;
  }, [id]);
  const begin = () => void teaching.begin({ ...pupil.value, name: pupil.value.name.trim() });
  const leave = (
    <button type="button" onClick={() => void workplace.goTo({ kind: "start" })}>
      To the start
    </button>
  );
  switch (state.kind) {
    case "idle":
      return (
        <BeforeReading
          name={pupil.value.name}
          isKnown={people.find(pupil.value.id) !== null}
          isTaken={people.voices.value.some(({ name }) => name === pupil.value.name.trim())}
          onName={(name) => {
            pupil.value = { ...pupil.value, name };
          }}
          onBegin={begin}
        >
          {leave}
        </BeforeReading>
      );
    case "starting":
    case "reading":
    case "training":
      return <ReadAloud state={state} onCancel={() => teaching.cancel()} />;
    case "ended":
      return (
        <section class="own-voice-end">
          <p class="own-voice-told" role="alert">
            {state.sentence}
          </p>
          <div class="row-buttons">
            <button type="button" class="main-button" onClick={begin}>
              Start again
            </button>
            {leave}
          </div>
        </section>
      );
    case "done":
      return (
        <Learned {...state} keyWords={workplace.settings.value.keyWords}>
          {leave}
        </Learned>
      );
  }
}
