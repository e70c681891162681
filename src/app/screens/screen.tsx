import { useErrorBoundary } from "preact/hooks";
import { later } from "../later.tsx";
import type { Workplace } from "../workplace.ts";
import { Broken } from "./broken.tsx";
import { Start } from "./start.tsx";
import { Welcome } from "./welcome.tsx";

// Those that are opened first come with the page, the others behind it.
const Boiler = later(async () => (await import("./boiler.tsx")).Boiler);
const Afterwards = later(async () => (await import("./afterwards.tsx")).Afterwards);
const Sheets = later(async () => (await import("./sheets.tsx")).Sheets);
const SheetEditor = later(async () => (await import("./sheet.tsx")).SheetEditor);

/** Loads the screens that did not come with the page. Rejects where one cannot be loaded. */
export async function loadScreens(): Promise<void> {
  for (const { load } of [Boiler, Afterwards, Sheets, SheetEditor]) await load();
}

/** The one screen that is open. */
export function Screen({ workplace }: { readonly workplace: Workplace }) {
  const [fault] = useErrorBoundary();
  if (fault)
    return <Broken message={`The screen failed: ${String(fault)}. What was answered is stored: reload.`} />;
  const place = workplace.place.value;
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
    case "sheets":
      return <Sheets.Screen workplace={workplace} />;
    case "sheet":
      return <SheetEditor.Screen key={place.id ?? ""} workplace={workplace} id={place.id} />;
  }
}
