import { useSignal } from "@preact/signals";
import { droppedFiles } from "../../device/office/files.ts";
import { OFFICE_CAUTION } from "../../record/cautions.ts";
import type { Office as OfficeModel } from "../office/office.ts";
import { counted } from "../office/words.ts";
import { Appliance } from "../parts/office/appliance.tsx";
import { Appliances } from "../parts/office/appliances.tsx";
import { FollowUps } from "../parts/office/follow-ups.tsx";
import { OfficeVisit } from "../parts/office/office-visit.tsx";
import { TakeIn } from "../parts/office/take-in.tsx";
import { TakingIn } from "../parts/office/taking-in.tsx";
import { Visits } from "../parts/office/visits.tsx";
import { hashOf, type OfficePart } from "../place.ts";
import type { Workplace } from "../workplace.ts";
import "../styles/office.css";

interface OfficeProps {
  readonly workplace: Workplace;
  readonly part: OfficePart;
}

/** The visits of many, taken in from their bundles. */
export function Office({ workplace, part }: OfficeProps) {
  const { office } = workplace;
  const over = useSignal(false);
  const drop = (event: DragEvent) => {
    event.preventDefault();
    over.value = false;
    // Asked at once: after a pause the browser has let go of what was dropped.
    if (event.dataTransfer) void office.takeIn(droppedFiles(event.dataTransfer));
  };
  return (
    <main
      class="page office"
      // Wherever it is let go: beside a target the browser would open the file in place of the app.
      onDragOver={(event) => {
        event.preventDefault();
        over.value = true;
      }}
      onDragLeave={(event) => {
        if (event.relatedTarget === null) over.value = false;
      }}
      onDrop={drop}
    >
      <header class="office-head">
        <h1>{headingOf(office, part)}</h1>
        <nav class="office-nav" aria-label="Office">
          <Way to={{ kind: "visits" }} here={part}>
            Visits
          </Way>
          <Way to={{ kind: "appliances" }} here={part}>
            Appliances
          </Way>
          <Way to={{ kind: "follow-ups" }} here={part}>
            Follow-ups
          </Way>
          <a href="#/">To the start</a>
        </nav>
      </header>
      <p class="office-caution">
        <strong>Caution:</strong> {OFFICE_CAUTION}
      </p>
      <Problem office={office} />
      <p role="status" class="judging-anew">
        {office.judgingAnew.value > 0 &&
          `Judging ${counted(office.judgingAnew.value, "visit")} anew, as this version of the program judges …`}
      </p>
      {part.kind === "visits" && <TakeIn office={office} over={over.value} />}
      <TakingIn office={office} inFull={part.kind === "visits"} />
      <Part workplace={workplace} office={office} part={part} />
    </main>
  );
}

function headingOf(office: OfficeModel, part: OfficePart): string {
  switch (part.kind) {
    case "visits":
      return "Office: visits";
    case "appliances":
      return "Office: appliances";
    case "follow-ups":
      return "Office: follow-ups";
    case "visit":
      return office.opened.value?.kept.title ?? "Office: no such visit";
    case "appliance":
      return `Appliance ${office.history(part.id)?.appliance ?? part.id}`;
  }
}

function Part({ workplace, office, part }: OfficeProps & { readonly office: OfficeModel }) {
  switch (part.kind) {
    case "visits":
      return <Visits office={office} />;
    case "visit":
      return <OfficeVisit key={part.id} workplace={workplace} office={office} />;
    case "appliances":
      return <Appliances office={office} />;
    case "appliance":
      return <Appliance key={part.id} office={office} id={part.id} />;
    case "follow-ups":
      return <FollowUps workplace={workplace} office={office} />;
  }
}

interface WayProps {
  readonly to: OfficePart;
  readonly here: OfficePart;
  readonly children: string;
}

function Way({ to, here, children }: WayProps) {
  return (
    <a
      href={`#${hashOf({ kind: "office", part: to })}`}
      aria-current={to.kind === here.kind ? "page" : undefined}
    >
      {children}
    </a>
  );
}

function Problem({ office }: { readonly office: OfficeModel }) {
  const [problem, said] = [office.problem.value, office.said.value];
  if (problem === "" && said === "") return null;
  return (
    <div class={`notice notice-${problem ? "problem" : "done"}`} role={problem ? "alert" : "status"}>
      <p>{problem || said}</p>
      <button
        type="button"
        class="plain"
        onClick={() => {
          office.problem.value = "";
          office.said.value = "";
        }}
      >
        Close
      </button>
    </div>
  );
}
