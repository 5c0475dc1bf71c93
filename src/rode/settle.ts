import { type CompiledRode, compile } from "./compile.ts";
import type { Near } from "./contact/close-legs.ts";
import { settleContact } from "./contact/settle-contact.ts";
import { integrateAlong } from "./integrals.ts";
import { lieOnGround, settleTurned } from "./level-ends.ts";
import { ANCHOR, GROUNDED, march, V, X } from "./march.ts";
import { type Answer, inStillWater, type NoEquilibrium, type Pull, type Rig, type Settled } from "./model.ts";
import { isRope } from "./moved-rig.ts";
import { noEquilibrium } from "./no-equilibrium.ts";
import type { SettledTrace } from "./settled-trace.ts";
import { hangLimp, hangSlack } from "./slack.ts";
import { solve } from "./solve.ts";
import { AGROUND, AT_SURFACE, KINDS, SOLVED, solution, state, TOO_LITTLE, TOO_MUCH } from "./solve-state.ts";
import { makeTrace, type Trace } from "./trace.ts";

/**
 * Settles a rode: the equilibrium under a load stated at one end, or at a stated span.
 *
 * @param near how a rode much like it lies (`near` of a traced answer): with floats or in a current it is looked for there
 *   first, which saves time and changes nothing
 * @returns forces in N, lengths in m, angles in rad; or why no equilibrium exists and the nearest change that gives one
 * @throws never for a rig that was checked where it was read
 * @source closed forms of piece.ts (Irvine, Cable Structures, 1981, ch. 1); agreement with an independent integration
 *   of the same equations to 1e-8 relative is a test
 */
export function settle(rig: Rig, pull: Pull, near?: Near): Answer {
  const answer = settleTraced(rig, pull, near);
  return "settled" in answer ? answer.settled : answer;
}

/** As `settle`, with the record of the pieces. */
export function settleTraced(rig: Rig, pull: Pull, near?: Near): SettledTrace | NoEquilibrium {
  const rode = compile(rig);
  if (rode.rise <= 0) {
    if (rode.rise === 0 && rode.tanSlope === 0) {
      const trace = makeTrace(rode);
      const span = lieOnGround(rode, pull, trace);
      return typeof span === "number" ? read(rode, trace, span) : span;
    }
    // A bottom that falls to the winch, as a beach does: the rode may hang and rest on it as on any other.
    const falling = rode.tanSlope < 0 && rode.sinSlope * rode.totalLength < rode.rise;
    if (!falling) return settleTurned(rig, pull, settleTraced);
  }
  const short = rode.totalLength <= rode.rise;
  // Metal does not stretch to a rise: rope may.
  if (short && !rig.rode.some((part) => part.kind === "line" && isRope(part) && part.stretch.kind !== "rigid"))
    return noEquilibrium("shorterThanRise", rode.totalLength, rode.rise);
  if (!inStillWater(rig.setting) || rode.hasBuoyant) return settleContact(rig, pull, near);
  const target = pull.at === "span" ? pull.metres : pull.newtons;
  let how = solve(rode, KINDS[pull.at], target);
  if (how === AT_SURFACE) {
    const touching = settleContact(rig, pull);
    if ("settled" in touching || (touching.cause !== "tooNear" && !touching.cause.startsWith("lighter")))
      return touching;
    how = TOO_LITTLE;
  }
  const trace = makeTrace(rode);
  const slack = (how === TOO_LITTLE || how === AGROUND) && pull.at === "span" && target < rode.afloatBelow;
  if (slack && hangSlack(rode, target, trace)) {
    return read(rode, trace, target);
  }
  if (how !== SOLVED) return whyNot(rode, how, pull.at, target);
  march(rode, solution[0]!, solution[1]!, state, trace);
  const span = pull.at === "span" ? pull.metres : state[X]!;
  if (span >= rode.afloatBelow) return noEquilibrium("aground", span, rode.ashore);
  return read(rode, trace, span);
}

/** Why a solve found nothing. */
function whyNot(rode: CompiledRode, how: number, at: Pull["at"], target: number): NoEquilibrium {
  if (how === AGROUND) return noEquilibrium("aground", 0, rode.ashore);
  if (how === TOO_MUCH) return noEquilibrium("beyondReach", target, Math.sqrt(rode.totalLength ** 2 - rode.rise ** 2));
  if (how === TOO_LITTLE) {
    // The rode hangs straight down from the bow and what is left of it lies slack.
    hangLimp(rode);
    if (rode.totalLength <= rode.rise && at !== "span")
      return noEquilibrium("shortUntilStretched", target, Math.abs(at === "bow" ? state[V]! : state[ANCHOR]!));
    if (state[X]! >= rode.afloatBelow) return noEquilibrium("aground", 0, rode.ashore);
    if (at === "bow") return noEquilibrium("lighterThanHanging", target, Math.abs(state[V]!));
    if (at === "span") return noEquilibrium("tooNear", target, state[X]!);
    return noEquilibrium("lighterThanResting", target, Math.max(0, state[ANCHOR]!));
  }
  return noEquilibrium("noSuchValue", target, 0);
}

function read(rode: CompiledRode, trace: Trace, span: number): SettledTrace {
  const H = solution[0]!;
  const excess = solution[1]!;
  const slope = Math.atan(rode.tanSlope);
  // An excess within rounding of lift-off is lift-off.
  const lifted = excess > 1e-13 * (H + rode.totalLow);
  const toBottom = lifted ? Math.atan2(H * rode.tanSlope + excess, H) - slope : 0;
  const v = state[V]!;
  const integrals = integrateAlong(rode, trace, span);
  const settled: Settled = {
    kind: "settled",
    anchor: { tension: Math.max(0, state[ANCHOR]!), angle: slope + toBottom, angleToBottom: toBottom },
    bow: { tension: Math.hypot(H, v), angle: Math.atan2(v, H) },
    horizontal: H,
    span,
    grounded: state[GROUNDED]!,
    lifted: rode.totalLength - state[GROUNDED]!,
    stretch: integrals.stretch,
    sag: integrals.sag,
    scope: rode.totalLength / rode.rise,
    energy: { lift: integrals.lift, stretch: integrals.strain },
  };
  return { settled, rode, trace, integrals, excess };
}
