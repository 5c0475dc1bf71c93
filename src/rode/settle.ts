import { type CompiledRode, compile } from "./compile.ts";
import { settleContact } from "./contact/settle-contact.ts";
import { AGROUND, AT_SURFACE, KINDS, SOLVED, solution, state, TOO_LITTLE, TOO_MUCH } from "./given.ts";
import { ANCHOR, GROUNDED, march, V, X } from "./march.ts";
import type { Answer, NoEquilibrium, Pull, Rig, Settled } from "./model.ts";
import { noEquilibrium } from "./no-equilibrium.ts";
import { hangLimp, hangSlack } from "./slack.ts";
import { solve } from "./solve.ts";
import { survey } from "./survey.ts";
import { makeTrace, type Trace } from "./trace.ts";

/** An equilibrium together with the record of its pieces, for drawing it. */
export interface SettledTrace {
  readonly settled: Settled;
  readonly rode: CompiledRode;
  readonly trace: Trace;
  /** Lift of the anchor: above 0 it is off the bottom's slope by this vertical force, N; below 0 rode rests there. */
  readonly lift: number;
}

/**
 * Settles a rode: the equilibrium under a load stated at one end, or at a stated span.
 *
 * @returns forces in N, lengths in m, angles in rad; or why no equilibrium exists and the nearest change that gives one
 * @throws never for a rig that was checked where it was read
 * @source closed forms of piece.ts (Irvine, Cable Structures, 1981, ch. 1); agreement with an independent integration
 *   of the same equations to 1e-8 relative is a test
 */
export function settle(rig: Rig, pull: Pull): Answer {
  const answer = settleTraced(rig, pull);
  return "settled" in answer ? answer.settled : answer;
}

/** As `settle`, with the record of the pieces. */
export function settleTraced(rig: Rig, pull: Pull): SettledTrace | NoEquilibrium {
  const rode = compile(rig);
  if (rode.totalLength <= rode.rise) return noEquilibrium("shorterThanRise", rode.totalLength, rode.rise);
  const moving = rig.setting.medium === "water" && rig.setting.current !== 0;
  if (moving || rode.hasBuoyant) return settleContact(rig, pull);
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
    return { settled: read(rode, trace, target), rode, trace, lift: solution[1]! };
  }
  if (how !== SOLVED) return whyNot(rode, how, pull.at, target);
  march(rode, solution[0]!, solution[1]!, state, trace);
  const span = pull.at === "span" ? pull.metres : state[X]!;
  if (span >= rode.afloatBelow) return noEquilibrium("aground", span, rode.ashore);
  return { settled: read(rode, trace, span), rode, trace, lift: solution[1]! };
}

/** Why a solve found nothing. */
function whyNot(rode: CompiledRode, how: number, at: Pull["at"], target: number): NoEquilibrium {
  if (how === AGROUND) return noEquilibrium("aground", 0, rode.ashore);
  if (how === TOO_MUCH) return noEquilibrium("beyondReach", target, Math.sqrt(rode.totalLength ** 2 - rode.rise ** 2));
  if (how === TOO_LITTLE) {
    // The rode hangs straight down from the bow and what is left of it lies slack.
    hangLimp(rode);
    if (state[X]! >= rode.afloatBelow) return noEquilibrium("aground", 0, rode.ashore);
    if (at === "bow") return noEquilibrium("lighterThanHanging", target, Math.abs(state[V]!));
    if (at === "span") return noEquilibrium("tooNear", target, state[X]!);
    return noEquilibrium("lighterThanResting", target, Math.max(0, state[ANCHOR]!));
  }
  return noEquilibrium("noSuchValue", target, 0);
}

function read(rode: CompiledRode, trace: Trace, span: number): Settled {
  const H = solution[0]!;
  const lift = solution[1]!;
  const slope = Math.atan(rode.tanSlope);
  // A lift within rounding of lift-off is lift-off.
  const lifted = lift > 1e-13 * (H + rode.totalLow);
  const toBottom = lifted ? Math.atan2(H * rode.tanSlope + lift, H) - slope : 0;
  const v = state[V]!;
  const seen = survey(rode, trace, span, rode.rise);
  return {
    kind: "settled",
    anchor: { tension: Math.max(0, state[ANCHOR]!), angle: slope + toBottom, angleToBottom: toBottom },
    bow: { tension: Math.hypot(H, v), angle: Math.atan2(v, H) },
    horizontal: H,
    span,
    grounded: state[GROUNDED]!,
    lifted: rode.totalLength - state[GROUNDED]!,
    stretch: seen.stretch,
    sag: seen.sag,
    scope: rode.totalLength / rode.rise,
    energy: { lift: seen.lift, stretch: seen.strain },
  };
}
