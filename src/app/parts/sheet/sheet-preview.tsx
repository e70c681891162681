import type { SheetParts } from "../../sheets/parts.ts";
import { sheetInWords } from "../../sheets/words.ts";

/** What a sheet says, in plain words. */
export function SheetPreview({ parts }: { readonly parts: SheetParts }) {
  return (
    <section class="sheet-preview" aria-labelledby="preview-heading">
      <h2 id="preview-heading">What this sheet says</h2>
      {sheetInWords(parts).map(({ heading, lines }) => (
        <div key={heading}>
          <h3>{heading}</h3>
          <ul>
            {lines.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </div>
      ))}
    </section>
  );
}
