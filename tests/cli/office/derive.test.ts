import fc from "fast-check";
import { expect, test } from "vitest";
import { derivedRows } from "../../../src/cli/office/derive.ts";
import { officeRowOf } from "../../../src/cli/office/visit-row.ts";
import { NOTHING_FOUND } from "../../../src/record/office/log-found.ts";
import { officeRow } from "../../../src/record/office/row.ts";
import { anyScript } from "../../support/arbitrary.ts";
import { play } from "../../support/visits.ts";

test("of any visit: its row is the office's, every entry and reading is there once, and what stands is judged", () => {
  fc.assert(
    fc.property(anyScript, (script) => {
      const { visit, state } = play(script);
      const { visits, entries, readings, adjustments } = derivedRows(visit, "digest", NOTHING_FOUND);
      expect(visits.map(officeRowOf)).toEqual([officeRow(visit)]);
      expect(entries.map(({ entry_id }) => entry_id)).toEqual(visit.entries.map(({ id }) => id));
      expect(adjustments.map(({ seq }) => seq)).toEqual(state.adjustments.map(({ seq }) => seq));

      const standing = readings.filter((row) => row.standing);
      expect(standing.map(({ entry_id, value }) => [entry_id, value])).toEqual(
        state.readings.map(({ id, reading }) => [id, reading.value]),
      );
      for (const row of readings) {
        expect(row.standing).toBe(row.verdict !== null && row.phase !== null);
        if (row.verdict === "no-limit") expect([row.limit_min, row.limit_max]).toEqual([null, null]);
      }
      const found = readings.filter(({ phase }) => phase === "as-found");
      const kinds = found.map(({ quantity, firing, condition }) => `${quantity} ${firing} ${condition}`);
      expect(new Set(kinds).size).toBe(kinds.length);
      const read = state.items.filter(({ body }) => body.kind === "reading");
      expect(new Set(readings.map(({ seq }) => seq)).size).toBe(read.length);
    }),
  );
});
