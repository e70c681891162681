import { useErrorBoundary, useLayoutEffect, useRef } from "preact/hooks";
import { hashOf } from "../place.ts";
import type { Workplace } from "../workplace.ts";
import { Afterwards } from "./afterwards.tsx";
import { Boiler } from "./boiler.tsx";
import { Broken } from "./broken.tsx";
import { SheetEditor } from "./sheet.tsx";
import { Sheets } from "./sheets.tsx";
import { Start } from "./start.tsx";
import { Welcome } from "./welcome.tsx";

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
      return session && <Boiler workplace={workplace} session={session} />;
    }
    case "afterwards":
      return <Afterwards key={place.visitId} workplace={workplace} visitId={place.visitId} />;
    case "sheets":
      return <Sheets workplace={workplace} />;
    case "sheet":
      return <SheetEditor key={place.id ?? ""} workplace={workplace} id={place.id} />;
  }
}

/** Another screen begins at its top and with its heading, also for those who see nothing of it. */
function useTop(address: string): void {
  const before = useRef(address);
  useLayoutEffect(() => {
    if (before.current === address) return;
    before.current = address;
    scrollTo({ top: 0 });
    const heading = document.querySelector("h1");
    heading?.setAttribute("tabindex", "-1");
    heading?.focus({ preventScroll: true });
  }, [address]);
}
