/** How much rode was out when: a veer within a pull, from the marks of its log. */
import type { EffectiveMark } from "./effective-marks.ts";

/** From a time of the log on so much rode was out. */
export interface Veer {
  /** s on the log's clock */
  readonly from: number;
  /** m, from the anchor to the roller */
  readonly paidOut: number;
}

/** Veers by the marks of steps that tell a length, in the order of the marks. */
export function veersOf(marks: readonly EffectiveMark[]): Veer[] {
  return marks.flatMap(({ kind, from, takenAway, byHand }) => {
    const paidOut = byHand?.detail?.paidOut_m;
    return kind === "step" && !takenAway && typeof paidOut === "number" && paidOut > 0 ? [{ from, paidOut }] : [];
  });
}

/** Veers told by several logs of one pull, in the order of time. */
export const veersTogether = (...told: readonly (readonly Veer[])[]): Veer[] =>
  told.flat().sort((a, b) => a.from - b.from);

/** What was out at a time, m; null before the first veer, where the pull's own length was. */
export const lengthOutAt = (veers: readonly Veer[], time: number): number | null =>
  veers.findLast(({ from }) => from <= time)?.paidOut ?? null;

/** Whether the rode was veered between two times: there the boat goes back by rode let out, not by the anchor's way. */
export const veeredWithin = (veers: readonly Veer[], from: number, to: number): boolean =>
  veers.some((one) => one.from > from && one.from < to);
