import { useEffect, useState } from "preact/hooks";
import type { Stretch } from "../../../meaning/parser.ts";
import { clockTime } from "../../../record/wording.ts";
import type { Utterance } from "../../../visit/utterances.ts";
import { ENGINE_NAMES, type Shown, sureness, thingsOf } from "../../afterwards/rows.ts";
import type { Workplace } from "../../workplace.ts";
import { ClipButton } from "../boiler/clip-button.tsx";
import { HeardWords } from "../boiler/heard-words.tsx";
import { ReviewThing } from "./review-thing.tsx";

interface RowProps {
  readonly workplace: Workplace;
  readonly together: Utterance;
  readonly shown: Shown;
}

/** One utterance: when, the words as heard, how they came in, and each thing that was made of them. */
export function ReviewRow({ workplace, together, shown }: RowProps) {
  const [first] = together;
  const { afterwards, clips } = workplace;
  const sure = sureness(first.engine, Math.min(...together.map(({ confidence }) => confidence)));
  const byHand = first.phrase === "";
  return (
    <li class="said-row">
      <div class="said-head">
        <time dateTime={first.at}>{clockTime(first.at, shown.visit.head.zone)}</time>
        {byHand ? <span class="faint">by hand</span> : <Words workplace={workplace} together={together} />}
        {clips.kept.value.has(first.seq) && (
          <ClipButton workplace={workplace} clip={first.seq} said={first.phrase} />
        )}
        {!byHand && (
          <span class="said-how">
            {ENGINE_NAMES[first.engine]}
            {sure !== null && `, ${sure}`}
          </span>
        )}
      </div>
      <ul class="things">
        {thingsOf(together, shown).map((thing) => (
          <ReviewThing
            key={thing.id}
            afterwards={afterwards}
            thing={thing}
            state={shown.state}
            item={shown.item(thing.id)}
          />
        ))}
      </ul>
    </li>
  );
}

/** The words as heard. What was understood of them is worked out when its turn comes. */
function Words({ workplace: { afterwards }, together }: Omit<RowProps, "shown">) {
  const [first] = together;
  const [stretches, know] = useState<readonly Stretch[] | null>(afterwards.stretchesKnown(together));
  useEffect(() => {
    if (stretches) return;
    let isHere = true;
    void afterwards.stretches(together).then((found) => {
      if (isHere) know(found);
    });
    return () => {
      isHere = false;
    };
  }, []);
  if (!stretches) return <span class="heard-words">“{first.phrase}”</span>;
  return <HeardWords heard={{ text: first.phrase, stretches }} />;
}
