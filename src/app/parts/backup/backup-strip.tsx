import { laterPart } from "../../later.tsx";
import type { Workplace } from "../../workplace.ts";

interface StripProps {
  readonly workplace: Workplace;
}

const Form = laterPart<StripProps>(
  async () => (await import("./back-up-form.tsx")).BackUpForm,
  (_, failed) => (
    <p role="status">{failed ? "What makes a backup could not be loaded. Try again with a network." : "…"}</p>
  ),
);

/** Where everything is backed up; what that takes is loaded when it is opened. */
export function BackupStrip({ workplace }: StripProps) {
  const { isOpen } = workplace.backups;
  return (
    <section class="strip backup" aria-labelledby="backup-heading">
      <h2 id="backup-heading" tabIndex={-1}>
        Backup
      </h2>
      <p>
        What is logged is on this device only. A backup brings it back, here or on another device: bring its
        file in above.
      </p>
      {isOpen.value ? (
        <Form workplace={workplace} />
      ) : (
        <button
          type="button"
          onClick={() => {
            isOpen.value = true;
          }}
        >
          Back up everything
        </button>
      )}
    </section>
  );
}
