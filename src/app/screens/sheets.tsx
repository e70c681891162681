import { useSignal } from "@preact/signals";
import { harmless } from "../../measure/harmless.ts";
import { sourceOf } from "../../record/wording.ts";
import type { Sheet } from "../../visit/sheet.ts";
import { NoticeBoard } from "../parts/notice-board.tsx";
import { Question } from "../parts/question.tsx";
import { ImportFile } from "../parts/start/import-file.tsx";
import { fuelWords, sheetRows } from "../sheets/order.ts";
import type { Workplace } from "../workplace.ts";

/** The limits sheets: the person's own before the demo's; to make, copy, edit, delete, bring in and hand over. */
export function Sheets({ workplace }: { readonly workplace: Workplace }) {
  const { sheets } = workplace;
  const own = sheets.own.value;
  const rows = sheetRows(own, sheets.all.value, []);
  const ids = new Set(rows.map(({ sheet }) => sheet.id));
  const loose = sheets.unsaved.value.filter(({ key }) => !ids.has(key));
  return (
    <main class="page sheets-page">
      <header class="sheet-head">
        <h1>Limits sheets</h1>
        <p>
          The maker's limits for an appliance, typed in from the maker's paper. What a sheet says is judged
          by; what it does not say is not judged.
        </p>
      </header>
      <NoticeBoard workplace={workplace} />
      <nav class="row-buttons" aria-label="Sheets">
        <button
          type="button"
          class="main-button"
          onClick={() => void workplace.goTo({ kind: "sheet", id: null })}
        >
          {loose.some(({ key }) => key === "") ? "Go on with the new sheet" : "Make a sheet"}
        </button>
        <button type="button" onClick={() => void workplace.goTo({ kind: "start" })}>
          To the start
        </button>
      </nav>
      {loose.length > 0 && (
        <section aria-labelledby="loose-heading">
          <h2 id="loose-heading">Not saved yet</h2>
          <ul class="rows">
            {loose.map(({ key, draft }) => (
              <li key={key}>
                <div>
                  <strong>{draft.title || "Without a title"}</strong>
                  <span>begun, not saved: it cannot be chosen for a visit</span>
                </div>
                <div class="row-buttons">
                  <button
                    type="button"
                    onClick={() => void workplace.goTo({ kind: "sheet", id: key === "" ? null : key })}
                  >
                    Go on
                  </button>
                  <Discard title={draft.title} onDiscard={() => void sheets.discard(key)} />
                </div>
              </li>
            ))}
          </ul>
        </section>
      )}
      <section aria-labelledby="own-heading">
        <h2 id="own-heading" tabIndex={-1}>
          Your own
        </h2>
        {own.length === 0 && <p>None yet.</p>}
        <ul class="rows">
          {rows
            .filter(({ isDemo }) => !isDemo)
            .map(({ sheet }) => (
              <SheetRow key={sheet.id} workplace={workplace} sheet={sheet} />
            ))}
        </ul>
      </section>
      <section aria-labelledby="demo-heading">
        <h2 id="demo-heading">Demo</h2>
        <p class="demo-mark">Invented demo: not for real appliances.</p>
        <ul class="rows">
          {rows
            .filter(({ isDemo }) => isDemo)
            .map(({ sheet }) => (
              <SheetRow key={sheet.id} workplace={workplace} sheet={sheet} />
            ))}
        </ul>
      </section>
      <ImportFile workplace={workplace} />
    </main>
  );
}

function SheetRow({ workplace, sheet }: { readonly workplace: Workplace; readonly sheet: Sheet }) {
  const { sheets } = workplace;
  const asking = useSignal(false);
  const told = useSignal("");
  const title = harmless(sheet.title);
  const isDemo = sheets.isDemo(sheet);
  const unsaved = sheets.unsaved.value.some(({ key }) => key === sheet.id);
  const edit = () => workplace.goTo({ kind: "sheet", id: sheet.id });
  const copy = async () => workplace.goTo({ kind: "sheet", id: await sheets.copy(sheet) });
  const save = async () => {
    told.value = "";
    const name = await sheets.export(sheet);
    if (name !== null) told.value = `Saved: ${name}`;
  };
  return (
    <li>
      <div>
        <strong>{title}</strong>
        <span>
          {fuelWords(sheet)}
          {unsaved && "; changed, and not saved yet"}
        </span>
        {!isDemo && <span>{sourceOf(sheet)}</span>}
      </div>
      <div class="row-buttons">
        <button type="button" aria-label={`${isDemo ? "Read" : "Edit"} ${title}`} onClick={() => void edit()}>
          {isDemo ? "Read" : "Edit"}
        </button>
        <button type="button" aria-label={`Copy ${title}`} onClick={() => void copy()}>
          Copy
        </button>
        <button type="button" aria-label={`Export ${title}`} onClick={() => void save()}>
          Export
        </button>
        {!isDemo && (
          <button
            type="button"
            class="plain"
            aria-label={`Delete ${title}`}
            onClick={() => {
              asking.value = true;
            }}
          >
            Delete
          </button>
        )}
      </div>
      <p class="sheet-row-told" role="status">
        {told.value}
      </p>
      {asking.value && (
        <Question
          label={`Delete ${title}`}
          onNo={() => {
            asking.value = false;
          }}
          onExport={() => void save()}
          yes="Yes, delete it"
          onYes={() => {
            void sheets.remove(sheet).then(() => document.getElementById("own-heading")?.focus());
          }}
        >
          Delete “{title}” from this device for good? Visits that started with it keep their own copy and stay
          as they are.
        </Question>
      )}
    </li>
  );
}

function Discard({ title, onDiscard }: { readonly title: string; readonly onDiscard: () => void }) {
  const asking = useSignal(false);
  if (!asking.value) {
    return (
      <button
        type="button"
        class="plain"
        aria-label={`Discard ${title || "the sheet without a title"}`}
        onClick={() => {
          asking.value = true;
        }}
      >
        Discard
      </button>
    );
  }
  return (
    <Question
      label="Discard what was begun"
      onNo={() => {
        asking.value = false;
      }}
      yes="Yes, discard it"
      onYes={onDiscard}
    >
      What was typed goes for good.
    </Question>
  );
}
