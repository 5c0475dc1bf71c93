import type { PlannedPull } from "../../series/index.ts";
import type { PlannedHold } from "../series/series-work.ts";
import { type Setup, usualSetup } from "./setup-state.ts";

/** A planned pull as the deck's own fields, each load and length to four digits; null where it cannot be had. */
export function setupPlanned({ code, anchor, how }: PlannedPull, { hold, holdRule }: PlannedHold): Setup | null {
  if (how.kind !== "had") return null;
  const rounded = (value: number) => Number(value.toPrecision(4));
  return {
    ...usualSetup,
    depth: rounded(how.at.depth),
    paidOut: rounded(how.at.length),
    loads: how.loads.map(({ load }) => `${rounded(load)} N`).join(", "),
    hold,
    ...holdRule,
    anchor,
    code,
  };
}
