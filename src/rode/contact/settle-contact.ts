/** Settles rodes with floats, floating line, points in the surface, or current: slower than solve.ts, and covers what it does not. */

import type { CompiledRode } from "../compile.ts";
import { compile } from "../compile.ts";
import { integrateAlong } from "../integrals.ts";
import { inStillWater, type NoEquilibrium, type Pull, type Rig } from "../model.ts";
import { noEquilibrium } from "../no-equilibrium.ts";
import type { SettledTrace } from "../settled-trace.ts";
import { KINDS } from "../solve-state.ts";
import { makeTrace } from "../trace.ts";
import { type ClosedLegs, closeLegs, type Near } from "./close-legs.ts";
import type { Cursor } from "./cursor.ts";
import { dragStepper } from "./drag-stepper.ts";
import { type LaidOut, layOut, replay } from "./lay-out.ts";
import { nearStillWater } from "./near-still-water.ts";
import { closedFormStepper, type Stepper } from "./stepper.ts";

/** The stated quantity of a rode laid out. */
function statedOf(pull: Pull, end: Cursor, anchor: number): number {
  switch (pull.at) {
    case "horizontal":
      return end.H;
    case "bow":
      return Math.sqrt(end.H * end.H + end.V * end.V);
    case "anchor":
      return anchor;
    case "span":
      return end.x;
  }
}

const CLOSED = 1e-13;
/** What a stiff rode's rounding may leave; more is a jump from one shape to another. */
const PASSABLE = 1e-9;
/** A horizontal force of this share of the rode's weight is as good as none. */
const LIMP = 1e-6;

/** A rig made ready to be settled under many loads. */
export interface ContactRode {
  readonly rode: CompiledRode;
  readonly stepper: Stepper;
  readonly moving: boolean;
}

/** Where a rode lies under a load, without energies, sag and record. */
export interface Laid {
  readonly laid: LaidOut;
  /** Horizontal force at the anchor or where the rode first leaves the bottom, N. */
  readonly H: number;
  readonly span: number;
  readonly angleToBottom: number;
  readonly near: Near;
}

export function contactRode(rig: Rig): ContactRode {
  const rode = compile(rig);
  const moving = !inStillWater(rig.setting);
  return { rode, moving, stepper: moving ? dragStepper(rode, rig) : closedFormStepper(rode) };
}

/**
 * @param near a rode laid out near this one, such as the same under another load: looked at first
 * @returns where the rode lies, or why there is no equilibrium
 * @source the equations of piece.ts, with drag as in drag-stepper.ts
 */
export function layContact({ rode, stepper, moving }: ContactRode, pull: Pull, near?: Near): Laid | NoEquilibrium {
  const target = pull.at === "span" ? pull.metres : pull.newtons;
  const miss = (end: Cursor, anchor: number): number => statedOf(pull, end, anchor) / target - 1;
  const close = (from: Near | null | undefined): ClosedLegs | null => {
    const closed = from ? closeLegs(rode, stepper, from, miss) : null;
    return closed?.kind === "closed" ? closed : null;
  };
  const closed =
    close(near) ??
    (moving ? close(nearStillWater(rode, KINDS[pull.at], target)) : null) ??
    fromLaidOut(rode, stepper, pull, target, miss);
  const laid = closed?.laid ?? horizontalFor(rode, stepper, pull, target);
  if ("kind" in laid) return laid;
  const H = legsH(laid);
  const span = pull.at === "span" ? pull.metres : laid.end.x;
  if (span >= rode.afloatBelow) return noEquilibrium("aground", span, rode.ashore);
  const angleToBottom = laid.lift > 0 ? Math.atan2(H * rode.tanSlope + laid.lift, H) - Math.atan(rode.tanSlope) : 0;
  return { laid, H, span, angleToBottom, near: closed ?? { H, legs: laid.legs } };
}

/** As `layContact`, with energies, sag and the record of the pieces. */
export function settleContact(rig: Rig, pull: Pull, near?: Near): SettledTrace | NoEquilibrium {
  const contact = contactRode(rig);
  const { rode, stepper, moving } = contact;
  const found = layContact(contact, pull, near);
  if ("kind" in found) return found;
  const { span, angleToBottom } = found;
  const trace = makeTrace(rode);
  const laid = replay(rode, stepper, found.laid.legs, trace);
  const integrals = integrateAlong(rode, trace, span, moving ? stepper : null);
  return {
    rode,
    trace,
    integrals,
    excess: laid.legs[0]!.value,
    near: found.near,
    settled: {
      kind: "settled",
      anchor: { tension: laid.anchor, angle: Math.atan(rode.tanSlope) + angleToBottom, angleToBottom },
      bow: { tension: Math.hypot(laid.end.H, laid.end.V), angle: Math.atan2(laid.end.V, laid.end.H) },
      horizontal: laid.end.H,
      span,
      grounded: laid.grounded,
      lifted: rode.totalLength - laid.grounded,
      stretch: integrals.stretch,
      sag: integrals.sag,
      scope: rode.totalLength / rode.rise,
      energy: { lift: integrals.lift, stretch: integrals.strain },
    },
  };
}

/** From how the rode lies under a horizontal force not far off; what it touches may have changed on the way: then from there. */
function fromLaidOut(
  rode: CompiledRode,
  stepper: Stepper,
  pull: Pull,
  target: number,
  miss: (end: Cursor, anchor: number) => number,
): ClosedLegs | null {
  let H = pull.at === "span" ? Math.abs(rode.totalLow) + 1e-6 : target;
  for (let i = 0; i < 3; i++) {
    const laid = layOut(rode, stepper, H);
    if (typeof laid === "string") return null;
    const closed = closeLegs(rode, stepper, { H, legs: laid.legs }, miss);
    if (closed.kind === "closed") return closed;
    if (!(closed.H < 64 * H && closed.H > H / 64) || closed.H === H) return null;
    H = closed.H;
  }
  return null;
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
    const stated = statedOf(pull, laid.end, laid.anchor);
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
  // A search that closes the rise anew at every H leaves the load of a nearly taut rode as blurred as its rise is stiff.
  const H = legsH(laid);
  const sharp = closeLegs(
    rode,
    stepper,
    { H, legs: laid.legs },
    (end, anchor) => statedOf(pull, end, anchor) / target - 1,
  );
  const best = sharp.kind === "closed" ? sharp.laid : laid;
  return Math.abs(statedOf(pull, best.end, best.anchor) / target - 1) <= PASSABLE ? best : refused;
}

/** Horizontal force where a rode laid out begins, N. */
function legsH({ legs, end }: LaidOut): number {
  const { stage } = legs[0]!;
  return stage.kind === "anchor" ? stage.H : end.H;
}

function tooLittle(rode: CompiledRode, pull: Pull, target: number, stepper: Stepper, least: number): NoEquilibrium {
  const laid = layOut(rode, stepper, least);
  const limit = typeof laid === "string" ? 0 : statedOf(pull, laid.end, laid.anchor);
  if (pull.at === "span") return noEquilibrium("tooNear", target, limit);
  return noEquilibrium(pull.at === "bow" ? "lighterThanHanging" : "lighterThanResting", target, limit);
}

function refusal(rode: CompiledRode, why: "aground" | "stuck"): NoEquilibrium {
  if (why === "aground") return noEquilibrium("aground", 0, rode.ashore);
  return noEquilibrium("unknownState", 0, 0);
}
