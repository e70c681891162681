import { batch } from "@preact/signals";
import { reasonOf } from "../../device/notebook/trouble.ts";
import type { UnitSystem } from "../../measure/firing.ts";
import { isoDay } from "../../measure/zone.ts";
import type { Signing } from "../safekeeping/signing.ts";
import { SheetShelf } from "../sheets/shelf.ts";
import { Intake, type IntakeWorld } from "../start/intake.ts";
import { VisitShelf } from "../start/visit-shelf.ts";
import { VisitSummaries } from "../start/visit-summaries.ts";
import type { World } from "../world.ts";
import type { Notices } from "./notices.ts";

type ShelvesWorld = Pick<World, "notebook" | "newId" | "now" | "zone" | "demoSheets"> & {
  readonly signing: Signing;
  readonly restoring: IntakeWorld["restoring"];
};

/** What the notebook holds, as the screens list it. */
export class Shelves {
  readonly sheets: SheetShelf;
  readonly visits: VisitShelf;
  readonly summaries: VisitSummaries;
  readonly intake: Intake;
  readonly #notebook: World["notebook"];
  readonly #notices: Notices;

  constructor(world: ShelvesWorld, notices: Notices, units: () => UnitSystem) {
    const { notebook, newId, now, zone, signing, restoring } = world;
    this.#notebook = notebook;
    this.#notices = notices;
    this.visits = new VisitShelf({ notebook, newId, now, zone, signing });
    this.summaries = new VisitSummaries(notebook, now);
    this.sheets = new SheetShelf({
      notebook,
      demo: world.demoSheets,
      newId,
      units,
      today: () => isoDay(now(), zone()),
      guard: (work) => notices.guard(work),
    });
    this.intake = new Intake({
      notebook,
      signing,
      shelf: this.sheets,
      newId,
      now,
      restoring,
      list: () => this.list(),
      reason: reasonOf,
    });
  }

  /** Lists anew what is in the notebook; what of it cannot be read is told. Rejects where the notebook does. */
  async list(): Promise<void> {
    const [visits, sheets] = await Promise.all([this.#notebook.visits(), this.#notebook.sheets()]);
    const problems = [...visits.problems, ...sheets.problems];
    batch(() => {
      this.visits.heads.value = visits.whole;
      this.sheets.own.value = sheets.whole;
      this.summaries.forget();
      if (problems.length > 0) this.#notices.problem(problems);
    });
  }
}
