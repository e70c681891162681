import { useRef } from "preact/hooks";
import { MOST_SENTENCES, type Office, type TakingIn as Stand } from "../../office/office.ts";
import type { Progress } from "../../office/take-in.ts";
import { counted } from "../../office/words.ts";

interface TakingInProps {
  readonly office: Office;
  /** Whether what came of it is shown once it is over. */
  readonly inFull: boolean;
}

/** How taking in files goes, and what came of it. */
export function TakingIn({ office, inFull }: TakingInProps) {
  const taking = office.taking.value;
  // Said for each quarter and at the end: a voice that counts along would never be quiet.
  const quarter = useRef({ of: -1, words: "" });
  if (!taking) return null;
  const { stand, progress } = taking;
  const part = progress.ofBytes === 0 ? 0 : Math.floor((4 * progress.bytes) / progress.ofBytes);
  if (stand !== "running") quarter.current = { of: -1, words: `${endWords(taking)} ${tallyWords(progress)}` };
  else if (quarter.current.of !== part) quarter.current = { of: part, words: progressWords(progress) };
  const said = (
    <p class="for-ears" role="status">
      {quarter.current.words}
    </p>
  );
  if (stand !== "running" && !inFull) return said;
  return (
    <section class="taking-in" aria-label="Taking in">
      {said}
      {stand === "running" ? (
        <>
          <div class="taking-in-bar">
            <progress
              aria-label="Taking in visits"
              value={progress.bytes}
              max={Math.max(1, progress.ofBytes)}
            />
            <button type="button" onClick={() => office.stop()}>
              Stop
            </button>
          </div>
          <p>{progressWords(progress)}</p>
        </>
      ) : (
        <p>
          <strong>{endWords(taking)}</strong> {tallyWords(progress)}
        </p>
      )}
      <Refused taking={taking} />
      {stand !== "running" && (
        <button type="button" class="plain" onClick={() => office.closeTaking()}>
          Close
        </button>
      )}
    </section>
  );
}

function Refused({ taking: { sentences, progress } }: { readonly taking: Stand }) {
  if (sentences.length === 0) return null;
  const more = progress.refused - sentences.length;
  return (
    <details class="refused" open={progress.refused <= 10}>
      <summary>
        {progress.refused === 1
          ? "One file was not taken in; nothing was changed by it"
          : `${counted(progress.refused, "file")} were not taken in; nothing was changed by them`}
      </summary>
      <ul>
        {sentences.map((sentence, place) => (
          <li key={`${place} ${sentence}`}>{sentence}</li>
        ))}
        {more > 0 && progress.refused > MOST_SENTENCES && <li>And {more.toLocaleString("en-GB")} more.</li>}
      </ul>
    </details>
  );
}

function progressWords({ files, of }: Progress): string {
  return `${files.toLocaleString("en-GB")} of ${counted(of, "file")}`;
}

function endWords({ stand, progress, failure }: Stand): string {
  switch (stand) {
    case "failed":
      return `Taking in failed: ${failure}. What was taken in before stays.`;
    case "stopped":
      return `Stopped after ${progressWords(progress)}; what was taken in before stays.`;
    default:
      return `${counted(progress.files, "file")} gone through.`;
  }
}

/** "2 visits new, 1 superseded by a later export, 3 known already." */
function tallyWords({ taken, altered, refused }: Progress): string {
  const parts = [
    taken.new > 0 && `${counted(taken.new, "visit")} new`,
    taken.newer > 0 && `${taken.newer.toLocaleString("en-GB")} brought up to date by a later export`,
    taken.older > 0 && `${counted(taken.older, "earlier export")} kept beside what stands`,
    taken.forked > 0 && `${taken.forked.toLocaleString("en-GB")} went on in two ways: both are kept`,
    taken.same > 0 && `${taken.same.toLocaleString("en-GB")} known already`,
    refused > 0 && `${refused.toLocaleString("en-GB")} not taken in`,
  ].filter((part) => part !== false);
  if (parts.length === 0) return "No visit was in them.";
  return `${parts.join("; ")}.${altered === 0 ? "" : ` ${alteredWords(altered)}`}`;
}

function alteredWords(altered: number): string {
  return altered === 1
    ? "The log of one of them is altered."
    : `The logs of ${altered.toLocaleString("en-GB")} of them are altered.`;
}
