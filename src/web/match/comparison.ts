import { useMemo } from "react";
import { formatQuantity } from "../../quantity/index.ts";
import { type NoEquilibrium, sayWhy, settleTraced } from "../../rode/index.ts";
import type { MatchState, Side } from "./desk.ts";

/** A setup under the load, or why it finds no rest there. */
export type Answer = ReturnType<typeof settleTraced>;

export function useAnswer(state: MatchState, side: Side): Answer {
  const rig = state[side];
  return useMemo(() => settleTraced(rig, { at: "bow", newtons: state.load }), [rig, state.load]);
}

/** Angles nearer than this read the same on any gauge. */
const SAME = 0.05 * (Math.PI / 180);

/** Which of the two pulls its anchor steeper, in words. */
export function comparison(
  state: MatchState,
  { one, other }: Record<Side, Answer>,
  system: "metric" | "us",
): { words: string; same: boolean } {
  const name = (side: Side) => state[side].name;
  if (!("settled" in one)) return { words: whyNot(name("one"), one, system), same: false };
  if (!("settled" in other)) return { words: whyNot(name("other"), other, system), same: false };
  const apart = other.settled.anchor.angle - one.settled.anchor.angle;
  if (one.lift <= 0 && other.lift <= 0)
    return { words: "Neither anchor is lifted: both are pulled along the bottom.", same: true };
  if (Math.abs(apart) <= SAME) return { words: "Both anchors are pulled at the same angle.", same: true };
  const [steeper, flatter] = apart > 0 ? [name("other"), name("one")] : [name("one"), name("other")];
  return {
    words: `${steeper} pulls its anchor ${formatQuantity(Math.abs(apart), "angle", { digits: 2 })} steeper than ${flatter}.`,
    same: false,
  };
}

/** Why a setup has no equilibrium, in one line. */
export function whyNot(name: string, none: NoEquilibrium, system: "metric" | "us"): string {
  const { why, nearest } = sayWhy(none.cause, none.given, none.limit, system);
  return `${name}: ${why}; ${nearest}.`;
}
