import { setInWords } from "../../boiler/ready.ts";
import type { Session } from "../../boiler/session.ts";

/** That the device's clock was set while a settle time ran. */
export function ClockSet({ session }: { readonly session: Session }) {
  const by = session.clockSet.value;
  if (by === null) return null;
  return (
    <div class="notice notice-problem" role="alert">
      <p>
        {setInWords(by)} The settle time is counted without it: wait until “Ready”. Times in the log before
        and after do not agree.
      </p>
      <button
        type="button"
        onClick={() => {
          session.clockSet.value = null;
        }}
      >
        Close
      </button>
    </div>
  );
}
