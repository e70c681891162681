import { useEffect } from "preact/hooks";
import type { AheadSet } from "../../../device/ahead-cache.ts";
import { capital } from "../../../measure/capital.ts";
import type { AheadState } from "../../installed/ahead.ts";
import { SET_NAMES } from "../../installed/ahead-words.ts";
import type { Installed } from "../../installed/installed.ts";
import type { Workplace } from "../../workplace.ts";
import { DeviceKeyPart } from "./device-key.tsx";

/** What the app has of this device: files to work without a network, storage, the screen that stays on. */
export function DeviceSettings({ workplace }: { readonly workplace: Workplace }) {
  const { installed } = workplace;
  return (
    <section class="device" aria-labelledby="device-title">
      <h2 id="device-title">On this device</h2>
      <p>
        Visits, sheets and typed phrases work without a network from the first load on. Listening, the app's
        own voice, making PDF files and the office page need files that are fetched once, the first time or
        now:
      </p>
      <AheadRow installed={installed} set="ear" />
      <AheadRow installed={installed} set="voice" />
      <AheadRow installed={installed} set="pdf" />
      <AheadRow installed={installed} set="office" />
      {installed.ahead.trouble.value !== null && <p role="alert">{installed.ahead.trouble.value}</p>}
      <Storage installed={installed} />
      <DeviceKeyPart workplace={workplace} />
      <p>
        {installed.keepsAwake
          ? "The screen stays on while a visit runs."
          : "This browser cannot keep the screen on: set the device's own time-out to the longest."}
      </p>
      <p>
        A newer version is offered on the start screen, never during a visit, and comes only when you say so.
      </p>
    </section>
  );
}

function AheadRow({ installed: { ahead }, set }: { readonly installed: Installed; readonly set: AheadSet }) {
  const state = ahead.states.value[set];
  const name = capital(SET_NAMES[set]);
  return (
    <div class="ahead">
      <p>
        {name}: {stateWords(state)}
      </p>
      {state.kind === "fetching" && (
        <>
          <progress max={1} value={state.fraction} aria-label={`Fetching the ${SET_NAMES[set]}`} />
          <button type="button" class="plain" onClick={() => ahead.cancel(set)}>
            Cancel
          </button>
        </>
      )}
      {state.kind === "missing" && (
        <button
          type="button"
          class="plain"
          aria-label={`${name}: fetch for offline use`}
          onClick={() => void ahead.fetch(set)}
        >
          Fetch for offline use
        </button>
      )}
    </div>
  );
}

function stateWords(state: AheadState): string {
  switch (state.kind) {
    case "unknown":
      return "not yet known whether it is here";
    case "impossible":
      return "this browser cannot keep it here";
    case "missing":
      return `not here yet, ${size(state.bytes)}`;
    case "fetching":
      return `fetching, ${Math.floor(state.fraction * 100)} % of ${size(state.bytes)}`;
    case "kept":
      return `here, ${size(state.bytes)}`;
  }
}

function Storage({ installed }: { readonly installed: Installed }) {
  const storage = installed.storage.value;
  const kept = installed.kept.value;
  const { ear, voice, pdf } = installed.ahead.states.value;
  // Weighed anew when a set has come or gone.
  useEffect(() => void installed.weigh(), [installed, ear.kind, voice.kind, pdf.kind]);
  return (
    <>
      {storage && (
        <p>
          Stored here: {size(storage.used)}
          {storage.notebook !== null && `, of that ${size(storage.notebook)} visits, sheets and kept sound`}.
          The browser gives up to {size(storage.quota)}.
        </p>
      )}
      {kept !== null && (
        <p>
          {kept
            ? "The browser has promised to keep it."
            : "The browser may clear it when space runs short: export the visits you need."}
        </p>
      )}
    </>
  );
}

/** Bytes for people: two figures and their unit, of a thousand each. */
function size(bytes: number): string {
  const units = ["byte", "kilobyte", "megabyte", "gigabyte"] as const;
  const step = Math.min(3, Math.max(0, Math.floor(Math.log10(Math.max(bytes, 1)) / 3)));
  const format = { style: "unit", unit: units[step] ?? "byte", maximumSignificantDigits: 3 } as const;
  return new Intl.NumberFormat("en-US", format).format(bytes / 1000 ** step);
}
