import { useEffect } from "preact/hooks";
import { isoDay } from "../../../measure/zone.ts";
import { shownDay } from "../../../record/wording.ts";
import type { Workplace } from "../../workplace.ts";

/** Says that visits are on this device only for too long; not while a visit runs. */
export function BackupReminder({ workplace }: { readonly workplace: Workplace }) {
  const { backups, visits, visitRuns } = workplace;
  const heads = visits.heads.value;
  useEffect(() => void backups.look(), [heads]);
  const reminder = backups.reminder.value;
  if (!reminder || visitRuns.value) return null;
  const { count, since } = reminder;
  const day = shownDay(isoDay(since, workplace.zone));
  return (
    <div class="update backup-reminder" role="status">
      <p>
        {count === 1
          ? `What was logged in 1 visit since ${day} is only on this device: back it up, or export it.`
          : `What was logged in ${count} visits since ${day} is only on this device: back it up, or export it.`}
      </p>
      <div class="row-buttons">
        <button
          type="button"
          onClick={() => {
            backups.isOpen.value = true;
            document.getElementById("backup-heading")?.scrollIntoView();
          }}
        >
          Back up
        </button>
        <button type="button" class="plain" onClick={() => void backups.putOff()}>
          Remind me in a week
        </button>
      </div>
    </div>
  );
}
