import { useMemo } from "react";
import { DEGREE } from "../../quantity/index.ts";
import { match, type NoEquilibrium, rigInputs, type SettledUncertainty, settleTraced } from "../../rode/index.ts";
import { noEquilibriumLine } from "../../words/index.ts";
import { type Question, useNewest } from "../work/worker.ts";
import { LETTER, type MatchState, paidOut, type Side } from "./state.ts";

/** A setup under the load, or why it finds no rest there. */
export type Answer = ReturnType<typeof settleTraced>;

export function useAnswer(state: MatchState, side: Side): Answer {
  const rig = state[side];
  return useMemo(() => settleTraced(rig, { at: "bow", newtons: state.load }), [rig, state.load]);
}

/** How sure a setup's answer is; null while it is worked out, and for a rig without uncertain inputs. */
export function useUncertainty(state: MatchState, side: Side): SettledUncertainty | null {
  const rig = state[side];
  const { load } = state;
  const ask = useMemo(
    (): Question<SettledUncertainty | null> | null =>
      rigInputs(rig).length === 0 ? null : (work) => work.uncertainty(rig, { at: "bow", newtons: load }),
    [rig, load],
  );
  return useNewest(ask).answer;
}

/** Angles nearer than this read the same on any gauge. */
const SAME = 0.05 * DEGREE;

export interface Comparison {
  /** Angle to the bottom at B's anchor less that at A's, and its standard uncertainty; null without an equilibrium. */
  readonly apart: { readonly value: number; readonly u: number } | null;
  readonly words: string;
  readonly same: boolean;
}

/** Which of the two pulls its anchor steeper. The inputs of the two are taken as independent of each other. */
export function comparison(
  state: MatchState,
  answers: Readonly<Record<Side, Answer>>,
  u: Readonly<Record<Side, SettledUncertainty | null>>,
  system: "metric" | "us",
): Comparison {
  for (const side of ["one", "other"] as const) {
    const answer = answers[side];
    if (!("settled" in answer))
      return { apart: null, words: whyNot(`${LETTER[side]}, ${state[side].name}`, answer, system), same: false };
  }
  const { one, other } = answers as Record<Side, Exclude<Answer, NoEquilibrium>>;
  const apart = {
    value: other.settled.anchor.angleToBottom - one.settled.anchor.angleToBottom,
    u: Math.hypot(u.one?.firstOrder?.angleToBottom ?? 0, u.other?.firstOrder?.angleToBottom ?? 0),
  };
  if (one.excess <= 0 && other.excess <= 0)
    return { apart, words: "Neither anchor is lifted: both are pulled along the bottom.", same: true };
  if (Math.abs(apart.value) <= SAME) return { apart, words: "Both anchors are pulled at the same angle.", same: true };
  const [steeper, flatter] = apart.value > 0 ? ["B", "A"] : ["A", "B"];
  const words = `${steeper} pulls its anchor steeper than ${flatter}${
    Math.abs(apart.value) < 2 * apart.u ? ", by less than twice their uncertainty" : ""
  }.`;
  return { apart, words, same: false };
}

/** What would bring a setup to the angle of the other: the rig, and how much is paid out (or hauled in, below zero), m. */
export function useBrought(state: MatchState, side: Side) {
  const { one, other, load } = state;
  const { part, length } = paidOut(state, side);
  return useMemo(() => {
    const [from, to] = side === "other" ? [one, other] : [other, one];
    const found = match(from, to, { at: "bow", newtons: load }, part);
    if (found.kind === "noEquilibrium") return found;
    const line = found.otherRig.rode[part - 1];
    return { kind: "found" as const, rig: found.otherRig, more: line?.kind === "line" ? line.length - length : 0 };
  }, [one, other, load, side, part, length]);
}

/** Why a setup has no equilibrium, in one line. */
export function whyNot(name: string, none: NoEquilibrium, system: "metric" | "us"): string {
  return `${name}: ${noEquilibriumLine(none, system)}.`;
}
