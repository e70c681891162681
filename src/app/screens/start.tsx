import { Cautions } from "../parts/cautions.tsx";
import { EarlierVisits } from "../parts/earlier-visits.tsx";
import { ImportFile } from "../parts/import-file.tsx";
import { NewVisit } from "../parts/new-visit.tsx";
import { NoticeBoard } from "../parts/notice-board.tsx";
import { Plate } from "../parts/plate.tsx";
import { SettingsArea } from "../parts/settings-area.tsx";
import { UpdateLine } from "../parts/update-line.tsx";
import type { Workplace } from "../workplace.ts";

/** Before the boiler: the cautions, a new visit, the earlier ones, files and settings. */
export function Start({ workplace }: { readonly workplace: Workplace }) {
  return (
    <main class="page start">
      <Plate label="Burnerside">
        <header class="nameplate">
          <h1>Burnerside</h1>
          <p>Says what is out of limits, which screw, which way, how far</p>
        </header>
        <div class="caution-block">
          <h2>Caution</h2>
          <Cautions />
        </div>
        <NoticeBoard workplace={workplace} />
        <NewVisit workplace={workplace} />
      </Plate>
      <UpdateLine installed={workplace.installed} />
      <EarlierVisits workplace={workplace} />
      <ImportFile workplace={workplace} />
      <SettingsArea workplace={workplace} />
    </main>
  );
}
