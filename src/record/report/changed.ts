import type { LoggedItem, VisitState } from "../../visit/state.ts";
import { shownBody } from "../shown-body.ts";
import { clockTime } from "../wording.ts";
import { shortText } from "./harmless.ts";
import type { Block } from "./parts.ts";
import { shortened } from "./shortened.ts";

/** So many things are told of each kind. */
const MOST = 8;
const LETTERS = 120;

/** What was struck, and what was mended and from what: nothing that was logged is left out without a word. */
export function changedBlocks(state: VisitState): Block[] {
  const said = (items: readonly LoggedItem[], words: (item: LoggedItem) => string) => {
    const { shown, more } = shortened(items, MOST);
    return [...shown.map(words), ...(more === "" ? [] : [more])];
  };
  const time = ({ at }: LoggedItem) => clockTime(at, state.head.zone);
  const struck = said(
    state.items.filter(({ struckBy }) => struckBy !== null),
    (item) => `${time(item)} ${shortText(shownBody(item.body), LETTERS)}`,
  );
  const mended = said(
    state.items.filter(({ struckBy, history }) => struckBy === null && history.length > 0),
    (item) => {
      const [was] = item.history;
      const before = was ? shortText(shownBody(was), LETTERS) : "";
      return `${time(item)} ${before}, now ${shortText(shownBody(item.body), LETTERS)}`;
    },
  );
  const lists: Block[] = [
    { kind: "list", name: "Struck", items: struck },
    { kind: "list", name: "Mended", items: mended },
  ];
  const filled = lists.filter((list) => list.kind === "list" && list.items.length > 0);
  return filled.length > 0 ? filled : [{ kind: "text", text: "Nothing was struck or mended." }];
}
