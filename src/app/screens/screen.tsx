import { useErrorBoundary } from "preact/hooks";
import type { Workplace } from "../workplace.ts";
import { Boiler } from "./boiler.tsx";
import { Broken } from "./broken.tsx";
import { Start } from "./start.tsx";

/** The one screen that is open: the running visit, else the start. */
export function Screen({ workplace }: { readonly workplace: Workplace }) {
  const [fault] = useErrorBoundary();
  if (fault)
    return <Broken message={`The screen failed: ${String(fault)}. What was answered is stored: reload.`} />;
  const session = workplace.session.value;
  return session ? <Boiler workplace={workplace} session={session} /> : <Start workplace={workplace} />;
}
