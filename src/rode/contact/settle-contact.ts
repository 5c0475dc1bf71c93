/** Settles rodes with floats, floating line, points in the surface, or current: slower than solve.ts, and covers what it does not. */

import type { CompiledRode } from "../compile.ts";
import { compile } from "../compile.ts";
import type { NoEquilibrium, Pull, Rig, Settled } from "../model.ts";
import { noEquilibrium } from "../no-equilibrium.ts";
import { survey } from "../survey.ts";
import { makeTrace, type Trace } from "../trace.ts";
import { dragStepper } from "./drag-stepper.ts";
import { type LaidOut, layOut, replay } from "./lay-out.ts";
import { sharpen } from "./sharpen.ts";
import { type Stepper, stillStepper } from "./stepper.ts";

/** The stated quantity of a rode laid out. */
function statedOf(pull: Pull, laid: LaidOut): number {
  switch (pull.at) {
    case "horizontal":
      return laid.end.H;
    case "bow":
      return Math.hypot(laid.end.H, laid.end.V);
    case "anchor":
      return laid.anchor;
    case "span":
      return laid.end.x;
  }
}

const CLOSED = 1e-13;
/** What a stiff rode's rounding may leave; more is a jump from one shape to another. */
const PASSABLE = 1e-9;
/** A horizontal force of this share of the rode's weight is as good as none. */
const LIMP = 1e-6;

/**
 * @returns the equilibrium and the record of its pieces, or why there is none
 * @source the equations of piece.ts, with drag as in drag-stepper.ts
 */
export function settleContact(
  rig: Rig,
  pull: Pull,
): { settled: Settled; rode: CompiledRode; trace: Trace; lift: number } | NoEquilibrium {
  const rode = compile(rig);
  const moving = rig.setting.medium === "water" && rig.setting.current !== 0;
  const stepper: Stepper = moving ? dragStepper(rode, rig) : stillStepper(rode);
  const target = pull.at === "span" ? pull.metres : pull.newtons;
  const found = horizontalFor(rode, stepper, pull, target);
  if ("kind" in found) return found;
  const trace = makeTrace(rode);
  const laid = replay(rode, stepper, found.legs, trace);
  const H = found.legs[0]!.stage.kind === "anchor" ? found.legs[0]!.stage.H : laid.end.H;
  const span = pull.at === "span" ? pull.metres : laid.end.x;
  if (span >= rode.afloatBelow) return noEquilibrium("aground", span, rode.ashore);
  const slope = Math.atan(rode.tanSlope);
  const toBottom = laid.lift > 0 ? Math.atan2(H * rode.tanSlope + laid.lift, H) - slope : 0;
  const seen = survey(rode, trace, span, rode.rise);
  return {
    rode,
    trace,
    lift: laid.legs[0]!.value,
    settled: {
      kind: "settled",
      anchor: { tension: laid.anchor, angle: slope + toBottom, angleToBottom: toBottom },
      bow: { tension: Math.hypot(laid.end.H, laid.end.V), angle: Math.atan2(laid.end.V, laid.end.H) },
      horizontal: laid.end.H,
      span,
      grounded: laid.grounded,
      lifted: rode.totalLength - laid.grounded,
      stretch: seen.stretch,
      sag: seen.sag,
      scope: rode.totalLength / rode.rise,
      energy: { lift: seen.lift, stretch: seen.strain },
    },
  };
}

/**
 * Horizontal force at the lowest free end that gives what is stated. That grows with H, so it is bracketed, in logarithms.
 * Above some H a rode on a rising bottom has no state: what is refused above one that was not counts as too large.
 */
function horizontalFor(rode: CompiledRode, stepper: Stepper, pull: Pull, target: number): LaidOut | NoEquilibrium {
  const weigh = Math.abs(rode.totalLow) + 1e-6;
  let refused: NoEquilibrium = noEquilibrium("noSuchValue", target, 0);
  /** Logarithm of what is stated over the target; NaN where there is no state. */
  const excess = (H: number): number => {
    const laid = layOut(rode, stepper, H);
    if (typeof laid === "string") {
      // Ashore under one pull and not understood under another is ashore.
      if (refused.cause !== "aground") refused = refusal(rode, laid);
      return Number.NaN;
    }
    if (laid.end.x >= rode.afloatBelow) {
      refused = refusal(rode, "aground");
      return Number.NaN;
    }
    // A current that pulls more than the pull leaves the bow slack, with the rode streaming under it.
    if (!(laid.end.H > 0)) return Number.NEGATIVE_INFINITY;
    const stated = statedOf(pull, laid);
    return stated > 0 ? Math.log(stated / target) : Number.NEGATIVE_INFINITY;
  };
  const least = stepper.least * weigh;
  let lo = pull.at === "span" ? weigh : target;
  let flo = excess(lo);
  for (let i = 0; Number.isNaN(flo) && i < 60; i++) {
    lo /= 2;
    flo = excess(lo);
  }
  if (Number.isNaN(flo)) return refused;
  let hi = lo;
  let fhi = flo;
  while (flo > CLOSED) {
    hi = lo;
    fhi = flo;
    lo /= 8;
    if (lo < least) return tooLittle(rode, pull, target, stepper, hi);
    flo = excess(lo);
    // So little force leaves what hangs to rounding: the last state found stands for the least.
    if (Number.isNaN(flo)) return hi < LIMP * weigh ? tooLittle(rode, pull, target, stepper, hi) : refused;
  }
  while (fhi < -CLOSED) {
    lo = hi;
    flo = fhi;
    hi *= 8;
    if (hi > 1e15 * (weigh + target))
      return noEquilibrium("beyondReach", target, Math.sqrt(rode.totalLength ** 2 - rode.rise ** 2));
    fhi = excess(hi);
  }
  let stale = 0;
  for (let i = 0; i < 200; i++) {
    if (Math.min(Math.abs(flo), Math.abs(fhi)) <= CLOSED) break;
    const a = Math.log(lo);
    const b = Math.log(hi);
    let next = Math.exp(stale < 2 ? a - (flo * (b - a)) / (fhi - flo) : 0.5 * (a + b));
    if (!(next > lo && next < hi)) next = Math.sqrt(lo * hi);
    // Where there is nothing below and too much above, the edge need be no sharper than this.
    if (!(next > lo && next < hi) || (!(flo > Number.NEGATIVE_INFINITY) && hi < lo * (1 + PASSABLE))) break;
    const f = excess(next);
    if (f < 0) {
      lo = next;
      flo = f;
    } else {
      hi = next;
      fhi = f;
    }
    stale = Math.log(hi / lo) > 0.5 * (b - a) ? stale + 1 : 0;
  }
  if (flo === Number.NEGATIVE_INFINITY && fhi > PASSABLE) return tooLittle(rode, pull, target, stepper, hi);
  const laid = layOut(rode, stepper, Math.abs(flo) < Math.abs(fhi) ? lo : hi);
  if (typeof laid === "string") return refusal(rode, laid);
  const sharp = sharpen(rode, stepper, laid, (each) => statedOf(pull, each) / target - 1);
  return Math.abs(statedOf(pull, sharp) / target - 1) <= PASSABLE ? sharp : refused;
}

function tooLittle(rode: CompiledRode, pull: Pull, target: number, stepper: Stepper, least: number): NoEquilibrium {
  const laid = layOut(rode, stepper, least);
  const limit = typeof laid === "string" ? 0 : statedOf(pull, laid);
  if (pull.at === "span") return noEquilibrium("tooNear", target, limit);
  return noEquilibrium(pull.at === "bow" ? "lighterThanHanging" : "lighterThanResting", target, limit);
}

function refusal(rode: CompiledRode, why: "aground" | "stuck"): NoEquilibrium {
  if (why === "aground") return noEquilibrium("aground", 0, rode.ashore);
  return noEquilibrium("unknownState", 0, 0);
}
