import { type Examined, UNLINKED } from "../../../src/record/integrity/finding.ts";
import type { Block, Cell, Report, SectionId } from "../../../src/record/report/parts.ts";

/** What is found of a visit that never saw a store. */
export const NOT_LINKED: Examined = { finding: UNLINKED, trouble: null };

/** A section's texts, a line a row: name, then "text [verdict] (note)" of each cell. */
export function lines(report: Report, id: SectionId): string[] {
  return report.sections.find((section) => section.id === id)?.blocks.flatMap(blockLines) ?? [];
}

/** One row of it, by how it begins. */
export function line(report: Report, id: SectionId, name: string): string | undefined {
  return lines(report, id).find((text) => text.startsWith(name));
}

function blockLines(block: Block): string[] {
  switch (block.kind) {
    case "facts":
      return [
        ...(block.name === "" ? [] : [block.name]),
        ...block.rows.map((row) => `${row.name}: ${cellText(row)}`),
      ];
    case "table":
      return block.rows.map((row) => row.map(cellText).join(" | "));
    case "list":
      return block.items.map((item) => (block.name === "" ? item : `${block.name}: ${item}`));
    case "text":
      return [block.text];
    case "signatures":
      return [...block.names];
    case "trace":
      return [`trace of ${block.trace.panels.length}`];
  }
}

function cellText({ text, verdict, note }: Cell): string {
  return [text, verdict && `[${verdict}]`, note && `(${note})`].filter(Boolean).join(" ");
}
