import { useComputed, useSignal } from "@preact/signals";
import { useEffect, useMemo, useRef } from "preact/hooks";
import { Firing, Fuel } from "../../measure/firing.ts";
import { harmless } from "../../measure/harmless.ts";
import { FUEL_NAMES } from "../../record/wording.ts";
import { NoticeBoard } from "../parts/notice-board.tsx";
import { Question } from "../parts/question.tsx";
import { AdjusterFields } from "../parts/sheet/adjuster-fields.tsx";
import { ClosingFields } from "../parts/sheet/closing-fields.tsx";
import { FuelFields } from "../parts/sheet/fuel-fields.tsx";
import { fieldId, Notes } from "../parts/sheet/notes.tsx";
import { SheetPreview } from "../parts/sheet/sheet-preview.tsx";
import { SheetProblems } from "../parts/sheet/sheet-problems.tsx";
import { SourceFields } from "../parts/sheet/source-fields.tsx";
import { checkSheet } from "../sheets/check.ts";
import { draftOf, emptyFuel, usualPressure } from "../sheets/draft.ts";
import { SheetForm } from "../sheets/form.ts";
import type { Workplace } from "../workplace.ts";

interface SheetEditorProps {
  readonly workplace: Workplace;
  /** Null for a new sheet. */
  readonly id: string | null;
}

/** One limits sheet: its form, or what it says where it is the demo's, or that it is not here. */
export function SheetEditor({ workplace, id }: SheetEditorProps) {
  const { sheets } = workplace;
  const form = useMemo(() => {
    const draft = sheets.draft(id);
    return draft && new SheetForm(sheets, id ?? "", draft);
  }, [id]);
  // What was typed last is stored also when the page is left at once.
  useEffect(() => () => void sheets.store(), []);
  return (
    <main class="page sheet-page">
      {form ? (
        <EditorForm workplace={workplace} form={form} />
      ) : (
        <ReadOnly workplace={workplace} id={id ?? ""} />
      )}
    </main>
  );
}

function ReadOnly({ workplace, id }: { readonly workplace: Workplace; readonly id: string }) {
  const { sheets } = workplace;
  const sheet = sheets.find(id);
  const copy = async () => {
    if (sheet) await workplace.goTo({ kind: "sheet", id: await sheets.copy(sheet) });
  };
  return (
    <>
      <header class="sheet-head">
        <h1>{sheet ? harmless(sheet.title) : "No such limits sheet"}</h1>
        {sheet ? (
          <p class="demo-mark">Invented demo: not for real appliances. It cannot be edited; a copy can.</p>
        ) : (
          <p>It was deleted, or the address is of another device.</p>
        )}
      </header>
      {sheet && (
        <SheetPreview parts={checkSheet(draftOf(sheet), { otherTitles: [], today: sheets.today }).parts} />
      )}
      <nav class="row-buttons" aria-label="Sheet">
        {sheet && (
          <button type="button" class="main-button" onClick={() => void copy()}>
            Copy and edit
          </button>
        )}
        <button type="button" onClick={() => void workplace.goTo({ kind: "sheets" })}>
          To the sheets
        </button>
      </nav>
    </>
  );
}

function EditorForm({ workplace, form }: { readonly workplace: Workplace; readonly form: SheetForm }) {
  const { sheets } = workplace;
  const asking = useSignal(false);
  const problemsBox = useRef<HTMLElement>(null);
  const { fuels, title } = form.draft.value;
  const { problems, parts } = form.check.value;
  const isNew = useComputed(() => !sheets.own.value.some(({ id }) => id === form.draft.value.id));

  const save = async (event: SubmitEvent) => {
    event.preventDefault();
    if (await form.save()) {
      workplace.notice.value = { kind: "done", sentences: [`Saved: ${form.draft.value.title.trim()}.`] };
      await workplace.goTo({ kind: "sheets" });
    } else if (form.check.value.problems.length > 0) problemsBox.current?.focus();
  };
  const discard = async () => {
    await sheets.discard(form.key);
    await workplace.goTo({ kind: "sheets" });
  };

  return (
    <>
      <header class="sheet-head">
        <h1>{isNew.value ? "New limits sheet" : `Limits sheet: ${title || "without a title"}`}</h1>
        <p>
          What you type stays on this device as it is until you save or discard it. Visits keep the copy of
          the sheet that they started with: a visit under way is judged by that.
        </p>
      </header>
      <NoticeBoard workplace={workplace} />
      <form class="sheet-form" onSubmit={(event) => void save(event)} noValidate>
        <div class="sheet-fields">
          <SourceFields form={form} />
          {Fuel.options.map((fuel) => {
            const limits = fuels[fuel];
            if (!limits) return null;
            const { [fuel]: _, ...others } = fuels;
            return (
              <FuelFields
                key={fuel}
                form={form}
                fuel={fuel}
                limits={limits}
                onRemove={() => form.change({ fuels: others })}
              />
            );
          })}
          <div class="row-buttons" id={fieldId("fuels")} tabIndex={-1}>
            {Fuel.options
              .filter((fuel) => !fuels[fuel])
              .map((fuel) => (
                <button
                  key={fuel}
                  type="button"
                  onClick={() =>
                    form.change({
                      fuels: { ...fuels, [fuel]: emptyFuel(usualPressure(workplace.settings.value.units)) },
                    })
                  }
                >
                  Add {FUEL_NAMES[fuel].toLowerCase()}
                </button>
              ))}
            <Notes form={form} path="fuels" />
          </div>
          {Firing.options.map((firing) => (
            <AdjusterFields key={firing} form={form} firing={firing} />
          ))}
          <ClosingFields form={form} />
        </div>
        <aside class="sheet-side">
          <SheetPreview parts={parts} />
          <SheetProblems form={form} at={problemsBox} />
        </aside>
        <div class="save-bar">
          <p id="save-says">
            {problems.length === 0
              ? "Everything that a sheet needs is there."
              : `Cannot be saved yet: ${problems.length === 1 ? "one thing is" : `${problems.length} things are`} missing or wrong.`}
          </p>
          <div class="row-buttons">
            <button
              type="submit"
              class="main-button"
              aria-disabled={problems.length > 0}
              aria-describedby="save-says"
            >
              Save sheet
            </button>
            <button type="button" onClick={() => void workplace.goTo({ kind: "sheets" })}>
              To the sheets
            </button>
            {form.changed.value && !asking.value && (
              <button
                type="button"
                class="plain"
                onClick={() => {
                  asking.value = true;
                }}
              >
                Discard changes
              </button>
            )}
          </div>
          {asking.value && (
            <Question
              label="Discard changes"
              onNo={() => {
                asking.value = false;
              }}
              yes="Yes, discard it"
              onYes={() => void discard()}
            >
              What was typed here since it was last saved goes for good.
            </Question>
          )}
        </div>
      </form>
    </>
  );
}
