import { signal } from "@preact/signals";
import type { ComponentChildren, ComponentType } from "preact";
import { useEffect } from "preact/hooks";
import { once } from "./once.ts";

/** A screen that is loaded when it is first shown, or before. */
export interface Later<P> {
  readonly Screen: ComponentType<P>;
  /** Loads it ahead. Rejects where it cannot be loaded; it is tried again when it is shown. */
  readonly load: () => Promise<unknown>;
}

/** Until it is there the page is empty; where it cannot be loaded, that is an error of the screen. */
export function later<P extends object>(load: () => Promise<ComponentType<P>>): Later<P> {
  type State = { readonly shown: ComponentType<P> | null; readonly fault: unknown };
  const state = signal<State>({ shown: null, fault: null });
  const ready = once(async () => {
    state.value = { shown: await load(), fault: null };
  });
  return {
    load: ready,
    Screen: (props: P) => {
      const { shown: Shown, fault } = state.value;
      useEffect(() => {
        ready().catch((error: unknown) => {
          state.value = { shown: null, fault: error };
        });
      }, []);
      if (fault) throw fault;
      return Shown ? <Shown {...props} /> : <main class="page" aria-busy="true" />;
    },
  };
}

/** A part of a screen that is loaded when it is first shown; until then, and where it cannot be loaded, `instead` is. */
export function laterPart<P extends object>(
  load: () => Promise<ComponentType<P>>,
  instead: (props: P, failed: boolean) => ComponentChildren,
): ComponentType<P> {
  const part = signal<{ readonly shown: ComponentType<P> | null; readonly failed: boolean }>({
    shown: null,
    failed: false,
  });
  const ready = once(async () => {
    part.value = { shown: await load(), failed: false };
  });
  return (props: P) => {
    const { shown: Shown, failed } = part.value;
    useEffect(() => {
      ready().catch(() => {
        part.value = { shown: null, failed: true };
      });
    }, []);
    return Shown ? <Shown {...props} /> : instead(props, failed);
  };
}
