import { expect, test } from "vitest";
import { answerNow } from "../../../src/app/boiler/answer-now.ts";

test.each<[string, ...Parameters<typeof answerNow>]>([
  ["Not listening.", "Not listening.", null, "resting"],
  ["Not listening.", "Not listening.", null, "off"],
  ["Not listening.", "Not listening.", null, "loading"],
  ["", "Not listening.", null, "listening"],
  ["CO2 9.2, good.", "CO2 9.2, good. Not listening.", null, "listening"],
  ["CO2 9.2, good.", "CO2 9.2, good.", null, "listening"],
  ["CO2 is not logged.", "CO2, figure by figure.", "CO2 is not logged.", "listening"],
])("“%s” stands of %j, %j, ear %s", (shown, ...from) => expect(answerNow(...from)).toBe(shown));
