import type { AddableMark } from "../study/index.ts";

/** What a mark that a person puts on a trace says. */
export const markWords: Readonly<Record<AddableMark, string>> = {
  plateau: "a load held",
  drag: "the anchor dragged",
  slack: "the rode slack: the zero",
  set: "the anchor set",
  reset: "it set again",
  step: "a step of the protocol",
  note: "anything else",
};
