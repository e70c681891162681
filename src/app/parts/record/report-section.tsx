import type { Block, Cell, Section } from "../../../record/report/parts.ts";
import { VERDICT_WORDS } from "../../../record/wording.ts";
import { TraceFigure } from "../boiler/trace.tsx";
import { Mark } from "../mark.tsx";

/** One section of a record. */
export function ReportSection({ section: { id, name, blocks } }: { readonly section: Section }) {
  return (
    <section class={`record-section record-${id}`} aria-labelledby={`record-${id}`}>
      <h2 id={`record-${id}`}>{name}</h2>
      {blocks.map((block, i) => (
        <Drawn key={`${i} ${block.kind}`} block={block} label={name} />
      ))}
    </section>
  );
}

function Drawn({ block, label }: { readonly block: Block; readonly label: string }) {
  switch (block.kind) {
    case "facts":
      return (
        <>
          {block.name !== "" && <h3>{block.name}</h3>}
          <dl class="facts">
            {block.rows.map((row) => (
              <div key={row.name}>
                <dt>{row.name}</dt>
                <dd>
                  <Value of={row} strong />
                </dd>
              </div>
            ))}
          </dl>
        </>
      );
    case "table":
      return <Table columns={block.columns} rows={block.rows} label={label} />;
    case "list":
      return (
        <div class={block.name === "" ? "record-list" : "record-list record-list-named"}>
          {block.name !== "" && <h3>{block.name}</h3>}
          <ul>
            {block.items.map((item, i) => (
              <li key={`${i} ${item}`}>
                <bdi>{item}</bdi>
              </li>
            ))}
          </ul>
        </div>
      );
    case "text":
      return <p class="record-text">{block.text}</p>;
    case "signatures":
      return (
        <div class="signatures">
          {block.names.map((name) => (
            <p key={name}>{name}</p>
          ))}
        </div>
      );
    case "trace":
      return <TraceFigure trace={block.trace} zone={block.zone} paper />;
  }
}

interface TableProps {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly Cell[])[];
  readonly label: string;
}

/** A table; on a phone each row is a small block with its own names. */
function Table({ columns, rows, label }: TableProps) {
  return (
    <table class="phases record-table" aria-label={label}>
      <thead>
        <tr>
          {columns.map((name) => (
            <th key={name} scope="col">
              {name}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((cells, i) => (
          <tr key={`${i} ${cells[0]?.text}`}>
            {cells.map((cell, place) =>
              place === 0 ? (
                <th key={columns[place]} scope="row">
                  <Value of={cell} />
                </th>
              ) : (
                <td key={columns[place]} data-name={columns[place]}>
                  <span class="record-value">
                    <Value of={cell} strong={cell.verdict !== null} />
                  </span>
                </td>
              ),
            )}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** A text, then its verdict in a mark and a word, then what has to be said with it. */
function Value({ of: { text, verdict, note }, strong }: { readonly of: Cell; readonly strong?: boolean }) {
  return (
    <>
      {strong ? (
        <b>
          <bdi>{text}</bdi>
        </b>
      ) : (
        <bdi>{text}</bdi>
      )}
      {verdict && (
        <span class={`phase-verdict verdict-${verdict}`}>
          <Mark verdict={verdict} /> {VERDICT_WORDS[verdict]}
        </span>
      )}
      {note !== "" && (
        <span class="record-note">
          {" "}
          <bdi>{note}</bdi>
        </span>
      )}
    </>
  );
}
