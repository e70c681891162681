import type { WarningStrip as Strip } from "../../boiler/warning-strip.ts";

/** The warnings that are still to be acknowledged and are not on the plate. They were announced when they were given. */
export function WarningStrip({ lines }: Pick<Strip, "lines">) {
  if (lines.length === 0) return null;
  return (
    <section class="warning-strip" aria-label="Warnings still to acknowledge">
      <h2>Still to acknowledge</h2>
      <ul>
        {lines.map(({ topic, text, time, times }) => (
          <li key={topic}>
            <strong>{text}</strong>{" "}
            <span>
              {times > 1 && `${times} times, last `}
              {time}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
