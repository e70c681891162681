import { type ComponentChildren, options } from "preact";
import { visible } from "../measure/harmless.ts";

/** Attributes that are read out or shown. */
const SHOWN = ["alt", "aria-description", "aria-label", "placeholder", "title"];

interface Props {
  children?: ComponentChildren;
  [name: string]: unknown;
}

/**
 * From now on whatever a screen shows is `visible`, wherever its text came from: names and notes out of files stand beside the app's own
 * words. Not what is in a field, which a person sees as it is while he changes it, nor ids and addresses.
 */
export function showVisibly(): void {
  const before = options.vnode;
  options.vnode = (vnode) => {
    // A component may have no props at all.
    const props: Props = vnode.props ?? {};
    if (props.children !== undefined) props.children = shown(props.children);
    if (typeof vnode.type === "string")
      for (const name of SHOWN) if (typeof props[name] === "string") props[name] = shownWords(props[name]);
    before?.(vnode);
  };
}

function shown(children: ComponentChildren): ComponentChildren {
  if (typeof children === "string") return shownWords(children);
  return Array.isArray(children) ? children.map(shown) : children;
}

/** Most of what is shown is plain, and need not be gone through. */
function shownWords(text: string): string {
  return /^[ -~]*$/.test(text) ? text : visible(text);
}
