import { Cautions } from "../parts/cautions.tsx";
import { Plate } from "../parts/plate.tsx";
import type { Workplace } from "../workplace.ts";

/** The first run. */
export function Welcome({ workplace }: { readonly workplace: Workplace }) {
  const goOn = async () => {
    await workplace.changeSettings({ welcomed: true });
    await workplace.goTo({ kind: "start" });
  };
  return (
    <main class="page">
      <Plate label="Burnerside">
        <h1>Burnerside</h1>
        <Cautions />
        <button type="button" class="main-button" onClick={() => void goOn()}>
          To the start
        </button>
      </Plate>
    </main>
  );
}
