/** A copy with one place changed ("entries[0].at"); undefined takes the field away. Typed as the original on purpose. */
export function edited<T>(original: T, path: string, value: unknown): T {
  const copy = structuredClone(original);
  const steps = path.split(/[.[\]]+/).filter((step) => step !== "");
  const last = steps.pop();
  if (last === undefined) throw new RangeError("expected a path");
  let inner: unknown = copy;
  for (const step of steps) inner = Reflect.get(Object(inner), step);
  if (value === undefined) Reflect.deleteProperty(Object(inner), last);
  else Reflect.set(Object(inner), last, value);
  return copy;
}

/** A deep copy with every object's keys in reverse. */
export function shuffled<T>(value: T): T {
  const turn = (inner: unknown): unknown => {
    if (Array.isArray(inner)) return inner.map(turn);
    if (typeof inner !== "object" || inner === null) return inner;
    return Object.fromEntries(
      Object.entries(inner)
        .reverse()
        .map(([key, one]) => [key, turn(one)]),
    );
  };
  return turn(value) as T;
}
