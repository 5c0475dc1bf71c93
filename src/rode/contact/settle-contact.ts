/** Settles rodes with floats, floating line, points in the surface, or current: slower than solve.ts, and covers what it does not. */

import type { CompiledRode } from "../compile.ts";
import { compile } from "../compile.ts";
import type { NoEquilibrium, Pull, Rig, Settled } from "../model.ts";
import { noEquilibrium } from "../no-equilibrium.ts";
import { survey } from "../survey.ts";
import { makeTrace, type Trace } from "../trace.ts";
import { dragStepper } from "./drag-stepper.ts";
import { type LaidOut, layOut } from "./lay-out.ts";
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
  const H = horizontalFor(rode, stepper, pull, target);
  if (typeof H !== "number") return H;
  const trace = makeTrace(rode);
  const laid = layOut(rode, stepper, H, trace);
  if (typeof laid === "string") return refusal(rode, laid);
  const span = pull.at === "span" ? pull.metres : laid.end.x;
  const ceiling = Math.min(rode.surface, rode.rise);
  if (span * rode.tanSlope >= ceiling) return noEquilibrium("aground", span, ceiling / rode.tanSlope);
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

/** Horizontal force at the lowest free end that gives what is stated: monotone, so bracketed, in logarithms. */
function horizontalFor(rode: CompiledRode, stepper: Stepper, pull: Pull, target: number): number | NoEquilibrium {
  const weigh = Math.abs(rode.totalLow) + 1e-6;
  let refused: NoEquilibrium | null = null;
  const excess = (H: number): number | null => {
    const laid = layOut(rode, stepper, H);
    if (typeof laid === "string") {
      refused = refusal(rode, laid);
      return null;
    }
    const stated = statedOf(pull, laid);
    return stated > 0 ? Math.log(stated / target) : Number.NEGATIVE_INFINITY;
  };
  const least = 1e-9 * weigh;
  let H = pull.at === "span" ? weigh : target;
  let f = excess(H);
  // A rode laid along a rising bottom has no state at so large a force: look below it.
  for (let i = 0; f === null && i < 60; i++) {
    H /= 2;
    f = excess(H);
  }
  if (f === null) return refused ?? noEquilibrium("noSuchValue", target, 0);
  let lo = H;
  let hi = H;
  let flo = f;
  let fhi = f;
  while (flo > CLOSED) {
    hi = lo;
    fhi = flo;
    lo /= 8;
    const next = lo < least ? null : excess(lo);
    if (next === null)
      return least > lo
        ? tooLittle(rode, pull, target, stepper, least)
        : (refused ?? noEquilibrium("noSuchValue", target, 0));
    flo = next;
  }
  while (fhi < -CLOSED) {
    lo = hi;
    flo = fhi;
    hi *= 8;
    const next = hi > 1e15 * (weigh + target) ? null : excess(hi);
    if (next === null)
      return refused ?? noEquilibrium("beyondReach", target, Math.sqrt(rode.totalLength ** 2 - rode.rise ** 2));
    fhi = next;
  }
  let stale = 0;
  for (let i = 0; i < 200; i++) {
    if (Math.abs(flo) <= CLOSED) return lo;
    if (Math.abs(fhi) <= CLOSED) return hi;
    const a = Math.log(lo);
    const b = Math.log(hi);
    let next = Math.exp(stale < 2 && Number.isFinite(flo) ? a - (flo * (b - a)) / (fhi - flo) : 0.5 * (a + b));
    if (!(next > lo && next < hi)) next = Math.sqrt(lo * hi);
    if (!(next > lo && next < hi)) break;
    const f = excess(next);
    if (f === null) return refused ?? noEquilibrium("noSuchValue", target, 0);
    const before = b - a;
    if (f < 0) {
      lo = next;
      flo = f;
    } else {
      hi = next;
      fhi = f;
    }
    stale = Math.log(hi / lo) > 0.5 * before ? stale + 1 : 0;
  }
  return Math.abs(flo) < Math.abs(fhi) ? lo : hi;
}

function tooLittle(rode: CompiledRode, pull: Pull, target: number, stepper: Stepper, least: number): NoEquilibrium {
  const laid = layOut(rode, stepper, least);
  const limit = typeof laid === "string" ? 0 : statedOf(pull, laid);
  if (pull.at === "span") return noEquilibrium("tooNear", target, limit);
  return noEquilibrium(pull.at === "bow" ? "lighterThanHanging" : "lighterThanResting", target, limit);
}

function refusal(rode: CompiledRode, why: "aground" | "stuck"): NoEquilibrium {
  if (why === "aground")
    return noEquilibrium("aground", 0, rode.tanSlope > 0 ? Math.min(rode.surface, rode.rise) / rode.tanSlope : 0);
  return noEquilibrium("unknownState", 0, 0);
}
