import { BackupStrip } from "../parts/backup/backup-strip.tsx";
import { BackupReminder } from "../parts/backup/reminder.tsx";
import { CautionsInReach } from "../parts/cautions.tsx";
import { NoticeBoard } from "../parts/notice-board.tsx";
import { Plate } from "../parts/plate.tsx";
import { SettingsArea } from "../parts/settings/settings-area.tsx";
import { UpdateLine } from "../parts/settings/update-line.tsx";
import { EarlierVisits } from "../parts/start/earlier-visits.tsx";
import { ImportFile } from "../parts/start/import-file.tsx";
import { KeptHere } from "../parts/start/kept-here.tsx";
import { NewVisit } from "../parts/start/new-visit.tsx";
import type { Workplace } from "../workplace.ts";

/** Before the boiler: a new visit, the earlier ones, sheets, files and settings. */
export function Start({ workplace }: { readonly workplace: Workplace }) {
  return (
    <main class="page start">
      <Plate label="Burnerside">
        <header class="nameplate">
          <h1>Burnerside</h1>
          <p>Says what is out of limits, which screw, which way, how far</p>
        </header>
        <CautionsInReach />
        <NoticeBoard workplace={workplace} />
        <NewVisit workplace={workplace} />
      </Plate>
      <UpdateLine installed={workplace.installed} />
      <KeptHere installed={workplace.installed} />
      <BackupReminder workplace={workplace} />
      <EarlierVisits workplace={workplace} />
      <section class="strip" aria-labelledby="sheets-heading">
        <h2 id="sheets-heading">Limits sheets</h2>
        <p>The maker's limits for an appliance, typed in from the maker's paper.</p>
        <button type="button" onClick={() => void workplace.goTo({ kind: "sheets" })}>
          Make, edit and copy sheets
        </button>
      </section>
      <ImportFile workplace={workplace} />
      <BackupStrip workplace={workplace} />
      <p class="strip">
        <a class="office-way" href="#/office">
          Office: take in visits of many
        </a>
      </p>
      <SettingsArea workplace={workplace} />
    </main>
  );
}
