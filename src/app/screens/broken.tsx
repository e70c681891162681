import { Plate } from "../parts/plate.tsx";

/** Shown instead of everything where the app cannot work at all: one sentence that says why. */
export function Broken({ message }: { readonly message: string }) {
  return (
    <main class="page">
      <Plate label="Burnerside">
        <p class="alert" role="alert">
          Burnerside cannot start. {message}
        </p>
      </Plate>
    </main>
  );
}
