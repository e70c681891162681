import { useErrorBoundary, useLayoutEffect, useRef } from "preact/hooks";
import { later } from "../later.tsx";
import { focusHeading } from "../parts/focus-heading.ts";
import { hashOf } from "../place.ts";
import type { Workplace } from "../workplace.ts";
import { Broken } from "./broken.tsx";
import { Start } from "./start.tsx";
import { Welcome } from "./welcome.tsx";

// Those that are opened first come with the page, the others behind it.
const Boiler = later(async () => (await import("./boiler.tsx")).Boiler);
const Afterwards = later(async () => (await import("./afterwards.tsx")).Afterwards);
const VisitRecord = later(async () => (await import("./record.tsx")).VisitRecord);
const Office = later(async () => (await import("./office.tsx")).Office);
const Sheets = later(async () => (await import("./sheets.tsx")).Sheets);
const OwnVoice = later(async () => (await import("./own-voice.tsx")).OwnVoice);
const SheetEditor = later(async () => (await import("./sheet.tsx")).SheetEditor);

/**
 * Loads the screen of a visit ahead: no tap waits for it, and no visit depends on a network. The others are loaded when they
 * are opened, from what the service worker keeps. Rejects where it cannot be loaded.
 */
export const loadBoiler = Boiler.load;

/** The one screen that is open. */
export function Screen({ workplace }: { readonly workplace: Workplace }) {
  const [fault] = useErrorBoundary();
  const place = workplace.place.value;
  useTop(hashOf(place));
  if (fault)
    return <Broken message={`The screen failed: ${String(fault)}. What was answered is stored: reload.`} />;
  switch (place.kind) {
    case "start":
      return <Start workplace={workplace} />;
    case "welcome":
      return <Welcome workplace={workplace} />;
    case "boiler": {
      const session = workplace.session.value;
      return session && <Boiler.Screen workplace={workplace} session={session} />;
    }
    case "afterwards":
      return <Afterwards.Screen key={place.visitId} workplace={workplace} visitId={place.visitId} />;
    case "record":
      return <VisitRecord.Screen key={place.visitId} workplace={workplace} visitId={place.visitId} />;
    case "office":
      return <Office.Screen workplace={workplace} part={place.part} />;
    case "sheets":
      return <Sheets.Screen workplace={workplace} />;
    case "own-voice":
      return <OwnVoice.Screen key={place.id ?? ""} workplace={workplace} id={place.id} />;
    case "sheet":
      return <SheetEditor.Screen key={place.id ?? ""} workplace={workplace} id={place.id} />;
  }
}

/** Another screen begins at its top and with its heading, also for those who see nothing of it. */
function useTop(address: string): void {
  const before = useRef(address);
  useLayoutEffect(() => {
    if (before.current === address) return;
    before.current = address;
    scrollTo({ top: 0 });
    focusHeading();
  }, [address]);
}
