import { Alert } from "../parts/alert.tsx";
import { Plate } from "../parts/plate.tsx";

/** Shown instead of everything where the app cannot work: why, and what to do. */
export function Broken({ message }: { readonly message: string }) {
  return (
    <main class="page">
      <Plate label="Burnerside">
        <Alert>{message}</Alert>
      </Plate>
    </main>
  );
}
