import type { Item, Meaning } from "../../src/meaning/item.ts";

/** One item in the short notation of tests/corpus: "co2 9.2 % high", "turn ? -0.5", "note: words"; "-" is a unit not said. */
export function shortItem(item: Item): string {
  switch (item.kind) {
    case "reading": {
      const { quantity, value, unit, firing, condition, dial } = item;
      const size = dial && `dial ${dial.value} ${dial.unit}`;
      return [quantity, value, unit ?? "-", firing, condition, size]
        .filter((part) => part !== null)
        .join(" ");
    }
    case "firing":
      return `firing ${item.firing}`;
    case "adjustment":
      return `turn ${item.adjuster ?? "?"} ${item.turns}`;
    case "replace":
      return ["replace", item.quantity, item.value, item.unit ?? "-"].filter(Boolean).join(" ");
    case "mend": {
      const { unit, condition, way, adjuster, firing } = item;
      return ["mend", unit, condition, way, adjuster && `${adjuster} screw`, firing && `${firing} fire`]
        .filter(Boolean)
        .join(" ");
    }
    case "strike":
      return ["strike", item.last, item.quantity].filter(Boolean).join(" ");
    case "note":
      return `note: ${item.text}`;
    case "check":
      return `check ${item.item}${item.done ? "" : " undone"}`;
    case "command":
      return `command ${item.command}`;
  }
}

/** A whole meaning: its items, then what is unsure as "?(candidates)". In the corpus "?.." stands for any candidates. */
export function shortMeaning({ items, unsure }: Meaning): string {
  const asked = unsure.map(({ candidates }) =>
    candidates.length === 0 ? "?" : `?(${candidates.map(shortItem).join(", ")})`,
  );
  return [...items.map(shortItem), ...asked].join("; ") || "-";
}
