import { type CompiledRode, compile } from "./compile.ts";
import { settleContact } from "./contact/settle-contact.ts";
import { ANCHOR, GROUNDED, march, V, X } from "./march.ts";
import type { Answer, NoEquilibrium, Pull, Rig, Settled } from "./model.ts";
import { noEquilibrium } from "./no-equilibrium.ts";
import {
  AGROUND,
  AT_SURFACE,
  closeRise,
  GIVEN_ANCHOR,
  GIVEN_BOW,
  GIVEN_HORIZONTAL,
  GIVEN_SPAN,
  SOLVED,
  solution,
  solve,
  state,
  TOO_LITTLE,
  TOO_MUCH,
} from "./solve.ts";
import { survey } from "./survey.ts";
import { makeTrace, type Trace } from "./trace.ts";

const KINDS = { horizontal: GIVEN_HORIZONTAL, bow: GIVEN_BOW, anchor: GIVEN_ANCHOR, span: GIVEN_SPAN } as const;

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
  const how = solve(rode, KINDS[pull.at], target);
  if (how === AT_SURFACE) return settleContact(rig, pull);
  if (how !== SOLVED) {
    const refused = whyNot(rode, how, pull.at, target);
    if (refused !== null) return refused;
  }
  const trace = makeTrace(rode);
  march(rode, solution[0]!, solution[1]!, state, trace);
  const span = pull.at === "span" ? pull.metres : state[X]!;
  const aground = agroundAt(rode);
  if (span >= aground) return noEquilibrium("aground", span, aground);
  return { settled: read(rode, trace, span), rode, trace, lift: solution[1]! };
}

/** Why a solve found nothing; null when the slack state it left in `solution` is the answer. */
function whyNot(rode: CompiledRode, how: number, at: Pull["at"], target: number): NoEquilibrium | null {
  if (how === AGROUND) return noEquilibrium("aground", 0, agroundAt(rode));
  if (how === TOO_MUCH) return noEquilibrium("beyondReach", target, Math.sqrt(rode.totalLength ** 2 - rode.rise ** 2));
  if (how === TOO_LITTLE) {
    // The rode hangs straight down from the bow and what is left of it lies slack.
    closeRise(rode, 0, -0.5 * rode.totalLow);
    solution[0] = 0;
    if (at === "bow") return noEquilibrium("lighterThanHanging", target, Math.abs(state[V]!));
    if (at === "span") return null;
    return noEquilibrium("lighterThanResting", target, state[ANCHOR]!);
  }
  return noEquilibrium("noSuchValue", target, 0);
}

/** Horizontal distance from the anchor at which a rising bottom meets the surface (in air: the upper end), m. */
function agroundAt(rode: CompiledRode): number {
  const ceiling = Math.min(rode.surface, rode.rise);
  return rode.tanSlope > 0 ? ceiling / rode.tanSlope : Number.POSITIVE_INFINITY;
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
    anchor: { tension: state[ANCHOR]!, angle: slope + toBottom, angleToBottom: toBottom },
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
