/**
 * Newton steps in both unknowns at once, H and the lift, from a rode laid out: a search that closes the rise anew at every
 * H leaves the load of a nearly taut rode as blurred as its rise is stiff. Only for a rode that touches nothing after it
 * has left the anchor or the bottom: there two numbers say all.
 */
import type { CompiledRode } from "../compile.ts";
import { type LaidOut, replay } from "./lay-out.ts";
import type { Stepper } from "./stepper.ts";

/** Relative step of the differences that stand for derivatives: errors of the fourth decimal cost a step, not the answer. */
const STEP = 1e-6;

/**
 * @param miss what is stated less the target, over the target
 * @returns the sharper of what was given and what was found
 */
export function sharpen(rode: CompiledRode, stepper: Stepper, laid: LaidOut, miss: (laid: LaidOut) => number): LaidOut {
  const stage = laid.legs[0]!.stage;
  if (laid.legs.length !== 1 || stage.kind !== "anchor") return laid;
  const lengths = rode.rise + rode.totalLength;
  const at = (H: number, lift: number): { laid: LaidOut; over: number; off: number } => {
    const legs = [{ stage: { ...stage, H }, value: lift, stopAt: Number.POSITIVE_INFINITY }];
    const tried = replay(rode, stepper, legs, null);
    const over = tried.end.part === rode.count ? (tried.end.z - rode.rise) / lengths : Number.POSITIVE_INFINITY;
    return { laid: tried, over, off: miss(tried) };
  };
  let H = stage.H;
  let lift = laid.legs[0]!.value;
  let best = at(H, lift);
  for (let i = 0; i < 5; i++) {
    const here = i === 0 ? best : at(H, lift);
    if (worse(best) > worse(here)) best = here;
    const byH = at(H * (1 + STEP), lift);
    const byLift = at(H, lift * (1 + STEP));
    const [oH, gH] = [(byH.over - here.over) / (STEP * H), (byH.off - here.off) / (STEP * H)];
    const [oL, gL] = [(byLift.over - here.over) / (STEP * lift), (byLift.off - here.off) / (STEP * lift)];
    const det = oH * gL - oL * gH;
    H -= (here.over * gL - here.off * oL) / det;
    lift -= (here.off * oH - here.over * gH) / det;
    if (!(H > 0 && Number.isFinite(lift) && lift > 0 === laid.lift > 0)) break;
  }
  return best.laid;
}

function worse(tried: { over: number; off: number }): number {
  return Math.max(Math.abs(tried.over), Math.abs(tried.off));
}
