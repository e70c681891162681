import type { Workplace } from "../workplace.ts";

interface VisitRecordProps {
  readonly workplace: Workplace;
  readonly visitId: string;
}

/** The record of a visit, to print and to hand over. */
export function VisitRecord({ visitId }: VisitRecordProps) {
  return (
    <main class="page record">
      <h1>Visit record</h1>
      <p>{visitId}</p>
    </main>
  );
}
