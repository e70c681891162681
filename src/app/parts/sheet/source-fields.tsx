import type { SheetForm } from "../../sheets/form.ts";
import { TextField } from "./text-field.tsx";

/** Where the limits come from: first, because they are the maker's and not ours. */
export function SourceFields({ form }: { readonly form: SheetForm }) {
  const { source, title } = form.draft.value;
  const change = (part: Partial<typeof source>) => form.change({ source: { ...source, ...part } });
  return (
    <section class="sheet-part sheet-source" aria-labelledby="source-heading">
      <h2 id="source-heading">Source</h2>
      <p>Every limit comes from the maker's paper for this very appliance. Have it beside you.</p>
      <TextField
        form={form}
        path="source.document"
        label="Document"
        hint="the maker's title of the paper"
        value={source.document}
        onInput={(document) => change({ document })}
      />
      <div class="side-by-side">
        <TextField
          form={form}
          path="source.edition"
          label="Edition"
          value={source.edition}
          onInput={(edition) => change({ edition })}
        />
        <TextField
          form={form}
          path="source.page"
          label="Page"
          value={source.page}
          onInput={(page) => change({ page })}
        />
        <TextField
          form={form}
          path="source.enteredBy"
          label="Entered by"
          value={source.enteredBy}
          onInput={(enteredBy) => change({ enteredBy })}
        />
        <TextField
          form={form}
          path="source.enteredOn"
          label="Entered on"
          type="date"
          value={source.enteredOn}
          onInput={(enteredOn) => change({ enteredOn })}
        />
      </div>
      <TextField
        form={form}
        path="title"
        label="Title"
        hint="as you will choose it at the boiler"
        value={title}
        onInput={(next) => form.change({ title: next })}
      />
    </section>
  );
}
