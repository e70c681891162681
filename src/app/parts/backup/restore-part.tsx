import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import type { Restoring, RestoringStand } from "../../backup/restoring.ts";
import { restoredInWords } from "../../backup/words.ts";
import { Sentences } from "../sentences.tsx";
import { PassphraseField, ShowPassphrase } from "./passphrase-field.tsx";

interface RestoreProps {
  readonly restoring: Restoring;
  readonly onClose: () => void;
}

type Stand<Kind extends RestoringStand["kind"]> = Extract<RestoringStand, { kind: Kind }>;

/** A backup that was chosen: unlocked, looked through, and restored where that is wanted; and what came of it. */
export function RestorePart({ restoring, onClose }: RestoreProps) {
  const stand = restoring.stand.value;
  switch (stand.kind) {
    case "passphrase":
      return <Unlock restoring={restoring} wrong={stand.wrong} onClose={onClose} />;
    case "unlocking":
      return <p role="status">Unlocking: this takes a moment on purpose, so that guessing takes long …</p>;
    case "reading":
      return <p role="status">Looking the backup through …</p>;
    case "ready":
      return <Ready restoring={restoring} stand={stand} onClose={onClose} />;
    case "restoring":
      return (
        <>
          <p role="status">Restoring …</p>
          <progress max={stand.of} value={stand.done} aria-label="Restoring the backup" />
        </>
      );
    case "done":
      return <Done stand={stand} onClose={onClose} />;
    case "refused":
      return (
        <div class="notice notice-problem" role="alert">
          <p>Nothing was restored:</p>
          <Sentences sentences={stand.sentences} />
          <Close onClose={onClose} />
        </div>
      );
  }
}

function Unlock({ restoring, wrong, onClose }: RestoreProps & { readonly wrong: boolean }) {
  const passphrase = useSignal("");
  const shown = useSignal(false);
  const box = useRef<HTMLFormElement>(null);
  useEffect(() => box.current?.querySelector("input")?.focus(), []);
  return (
    <form
      class="question restore"
      ref={box}
      aria-label="Unlock the backup"
      onSubmit={(event) => {
        event.preventDefault();
        void restoring.unlock(passphrase.value);
      }}
    >
      <p>“{restoring.name}” is locked. Without its passphrase nobody can read it.</p>
      <PassphraseField
        label="Passphrase of the backup"
        use="current-password"
        value={passphrase.value}
        shown={shown.value}
        onInput={(value) => {
          passphrase.value = value;
        }}
        {...(wrong ? { problem: "unlock-problem" } : {})}
      />
      <ShowPassphrase
        shown={shown.value}
        onChange={(value) => {
          shown.value = value;
        }}
      />
      <p role="alert" class="field-problem" id="unlock-problem">
        {wrong &&
          "This is not its passphrase, or the file was changed or cut short: that looks alike. Capitals and spaces count."}
      </p>
      <div class="row-buttons">
        <button type="submit" class="main-button">
          Unlock
        </button>
        <button type="button" onClick={onClose}>
          Leave it
        </button>
      </div>
    </form>
  );
}

function Ready({ restoring, stand, onClose }: RestoreProps & { readonly stand: Stand<"ready"> }) {
  const settings = useSignal(stand.settings.wanted);
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => box.current?.querySelector("button")?.focus(), []);
  const { about, problems } = stand.words;
  return (
    <div class="question restore" role="alertdialog" aria-label="Restore the backup" ref={box}>
      <p>
        {about} No visit and no sheet that is here is overwritten, and nothing is restored before you say so.
      </p>
      {problems.length > 0 && (
        <div role="alert">
          <p>
            <strong>It is not whole.</strong> What can be read of it can be restored:
          </p>
          <Sentences sentences={problems} />
        </div>
      )}
      {stand.settings.there && (
        <label class="option">
          <input
            type="checkbox"
            name="restore-settings"
            checked={settings.value}
            onChange={() => {
              settings.value = !settings.value;
            }}
          />
          <span>Take over its settings too: units, names, instrument, screen</span>
        </label>
      )}
      <div class="row-buttons">
        <button type="button" class="main-button" onClick={() => void restoring.restore(settings.value)}>
          Restore
        </button>
        <button type="button" onClick={onClose}>
          Leave it
        </button>
      </div>
    </div>
  );
}

function Done({ stand, onClose }: { readonly stand: Stand<"done">; readonly onClose: () => void }) {
  const { done, left } = restoredInWords(stand.restored);
  const refused = stand.restored.told.some(({ kind }) => kind === "parted" || kind === "unreadable");
  const stopped = stand.restored.stopped !== null || stand.lost !== "";
  return (
    <div class={`notice notice-${stopped ? "problem" : "done"}`} role={stopped ? "alert" : "status"}>
      {stand.lost !== "" && (
        <p>
          <strong>{stand.lost}</strong>
        </p>
      )}
      <Sentences
        sentences={
          done.length > 0 ? done : [refused ? "Nothing was restored." : "Nothing had to be restored."]
        }
      />
      {left.length > 0 && (
        <>
          <p>Left as it was, or not taken:</p>
          <Sentences sentences={left} />
        </>
      )}
      <Close onClose={onClose} />
    </div>
  );
}

function Close({ onClose }: { readonly onClose: () => void }) {
  return (
    <button type="button" class="plain" onClick={onClose}>
      Close
    </button>
  );
}
