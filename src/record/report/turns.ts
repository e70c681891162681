import { Firing } from "../../measure/firing.ts";
import type { StandingAdjustment, VisitState } from "../../visit/state.ts";
import { clockTime, direction, firingName, screwName, shownDistance, shownTurns } from "../wording.ts";
import { type Block, cell } from "./parts.ts";
import { moreOf } from "./shortened.ts";

/** So many turns of a screw are told one by one; of more, the last ones. */
const MOST = 60;

/** What was turned of each screw: in all, how often, and each with its time. */
export function turnBlocks(state: VisitState): Block[] {
  if (state.adjustments.length === 0) return [{ kind: "text", text: "No screw was turned." }];
  const assumed = new Set(
    state.items.flatMap(({ id, body }) =>
      body.kind === "adjustment" && body.origin.adjuster === "assumed" ? [id] : [],
    ),
  );
  return [
    {
      kind: "table",
      columns: ["Screw", "In all", "Turns", "Each"],
      rows: Firing.options.map((adjuster) => {
        const turns = state.adjustments.filter((each) => each.adjuster === adjuster);
        const last = turns.slice(-MOST);
        const each = last.map((turn) => turnSaid(turn, assumed.has(turn.id), state.head.zone));
        return [
          cell(screwName(adjuster)),
          cell(sumSaid(turns)),
          cell(String(turns.length)),
          cell(each.join("; ") || "–", turns.length > MOST ? moreOf(turns.length - MOST) : ""),
        ];
      }),
    },
  ];
}

/** The signed sum: where the screw stands from where it was found. */
function sumSaid(turns: readonly StandingAdjustment[]): string {
  if (turns.length === 0) return "not turned";
  const sum = turns.reduce((total, each) => total + each.turns, 0);
  // What a hand cannot do is the dust of adding.
  return Math.abs(sum) < 0.002 ? "back where it was" : shownTurns(sum);
}

/** "09:44:10 ½ ↻". */
function turnSaid(turn: StandingAdjustment, isAssumed: boolean, zone: string | null): string {
  const { at, adjuster, turns, firing } = turn;
  const distance = shownDistance(turns).replace(/ turns?$/, "");
  const beside = [
    firing !== null && firing !== adjuster ? `burner at ${firingName(firing).toLowerCase()}` : "",
    isAssumed ? "screw assumed" : "",
  ].filter((word) => word !== "");
  const said = `${clockTime(at, zone)} ${distance} ${direction(turns) === "clockwise" ? "↻" : "↺"}`;
  return beside.length > 0 ? `${said} (${beside.join(", ")})` : said;
}
