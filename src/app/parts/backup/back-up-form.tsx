import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { normalised, PASSPHRASE, passphraseProblem } from "../../../record/backup/locked.ts";
import { counted } from "../../office/words.ts";
import type { Workplace } from "../../workplace.ts";
import { PassphraseField, ShowPassphrase } from "./passphrase-field.tsx";

const PROBLEM = "passphrase-problem";

/** What a backup is made with, the way to it, and what came of it. */
export function BackUpForm({ workplace }: { readonly workplace: Workplace }) {
  const { backups } = workplace;
  const sounds = useSignal(0);
  const sound = useSignal(true);
  const passphrase = useSignal("");
  const again = useSignal("");
  const shown = useSignal(false);
  const problem = useSignal<string | null>(null);
  const box = useRef<HTMLFormElement>(null);
  useEffect(() => {
    void backups.sounds().then((count) => {
      sounds.value = count;
    });
    box.current?.querySelector<HTMLElement>("input, button")?.focus();
  }, []);

  const make = async (event: Event) => {
    event.preventDefault();
    const wanted = passphrase.value !== "" || again.value !== "";
    problem.value = wanted ? passphraseProblem(passphrase.value, again.value) : null;
    if (problem.value !== null) return;
    await backups.make({ sound: sound.value, passphrase: wanted ? passphrase.value : null });
    // It is not left standing where the next one reads it.
    if (backups.outcome.value?.kind === "made") {
      passphrase.value = "";
      again.value = "";
    }
  };

  const making = backups.making.value;
  const length = [...normalised(passphrase.value)].length;
  const invalid = problem.value === null ? {} : { problem: PROBLEM };
  return (
    <form class="backup-form" ref={box} aria-busy={making !== null} onSubmit={(event) => void make(event)}>
      <p>
        One file with all visits of this notebook, limits sheets, settings, and what the office page keeps on
        this device. Not in it: the key that this device signs with, and people's own voices (the settings
        export those).
      </p>
      {sounds.value > 0 && (
        <label class="option">
          <input
            type="checkbox"
            name="backup-sound"
            checked={sound.value}
            onChange={() => {
              sound.value = !sound.value;
            }}
          />
          <span>With the kept sound of what was said ({counted(sounds.value, "sound")})</span>
        </label>
      )}
      <fieldset class="field">
        <legend>Lock it with a passphrase, if you like</legend>
        <p>
          Without one, anybody who gets the file can read it. With one, nobody can without the passphrase, not
          even you: <strong>a lost passphrase cannot be recovered</strong>. Hard to guess are four words or
          more that have nothing to do with each other, or {PASSPHRASE.good} characters or more.
        </p>
        <PassphraseField
          label="Passphrase"
          use="new-password"
          value={passphrase.value}
          shown={shown.value}
          onInput={(value) => {
            passphrase.value = value;
          }}
          {...invalid}
        />
        <PassphraseField
          label="The same once more"
          use="new-password"
          value={again.value}
          shown={shown.value}
          onInput={(value) => {
            again.value = value;
          }}
          {...invalid}
        />
        <ShowPassphrase
          shown={shown.value}
          onChange={(value) => {
            shown.value = value;
          }}
        />
        <p role="status">
          {length >= PASSPHRASE.least && length < PASSPHRASE.good && "This is short: a longer one is safer."}
        </p>
        <p role="alert" class="field-problem" id={PROBLEM}>
          {problem.value}
        </p>
      </fieldset>
      <div class="row-buttons">
        <button type="submit" class="main-button" disabled={making !== null}>
          Make the backup
        </button>
        <button
          type="button"
          class="plain"
          onClick={() => {
            backups.outcome.value = null;
            backups.isOpen.value = false;
          }}
        >
          Close
        </button>
      </div>
      {making !== null && <progress max={1} value={making} aria-label="Making the backup" />}
      <CameOfIt workplace={workplace} />
    </form>
  );
}

function CameOfIt({ workplace }: { readonly workplace: Workplace }) {
  const outcome = workplace.backups.outcome.value;
  switch (outcome?.kind) {
    case undefined:
      return null;
    case "failed":
      return (
        <div class="notice notice-problem" role="alert">
          <p>{outcome.sentence}</p>
        </div>
      );
    case "made":
      return (
        <div class="notice notice-done" role="status">
          <ul>
            <li>Backup made: {outcome.name}</li>
            {outcome.sentences.map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
            <li>
              The browser does not say whether the file was stored:{" "}
              <strong>look whether it has arrived</strong> before you rely on it, and keep it on another
              device.
            </li>
            {outcome.missing.map((sentence) => (
              <li key={sentence}>Not in it: {sentence}</li>
            ))}
          </ul>
        </div>
      );
  }
}
