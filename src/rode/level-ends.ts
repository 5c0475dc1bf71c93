/**
 * A rode in air whose upper end is no higher than its anchor end: a winch on a flat beach, or below what it pulls. On level
 * ground between level ends all of it lies on the ground. With the winch lower, the ground is that at its lower end: the
 * rode is settled from there, and the answer turned about.
 */
import { brent } from "../numeric/index.ts";
import { type CompiledRode, compile } from "./compile.ts";
import type { RodeIntegrals } from "./integrals.ts";
import { ANCHOR, GROUNDED, V } from "./march.ts";
import { GRAVITY, type NoEquilibrium, type Part, type Pull, type Rig, type Settled } from "./model.ts";
import { noEquilibrium } from "./no-equilibrium.ts";
import { RUN, rest, stretchAtRest } from "./rest.ts";
import type { SettledTrace } from "./settled-trace.ts";
import { solution, state } from "./solve-state.ts";
import { POINT, RESTING, record, type Trace } from "./trace.ts";

/**
 * Lays the whole rode on level ground and leaves its state in `solution` and `state`, as a march does.
 * @returns the span, m, or why there is none
 */
export function lieOnGround(rode: CompiledRode, pull: Pull, trace: Trace): number | NoEquilibrium {
  const friction = rode.restDrag * rode.totalLow;
  let bow: number;
  let span: number;
  if (pull.at !== "span") {
    bow = pull.newtons + (pull.at === "anchor" ? friction : 0);
    span = lay(rode, bow, trace);
  } else {
    const { metres } = pull;
    bow = 0;
    span = metres;
    if (metres > lay(rode, 0, null)) {
      let most = rode.totalLow + 1;
      while (lay(rode, most, null) < metres && most < 1e15) most *= 8;
      if (!(lay(rode, most, null) >= metres)) return noEquilibrium("beyondReach", metres, rode.totalLength);
      bow = brent((tension) => lay(rode, tension, null) - metres, 0, most, 1e-13 * most);
    }
    lay(rode, bow, trace);
  }
  solution[0] = bow;
  solution[1] = -rode.totalLow;
  state[V] = 0;
  state[ANCHOR] = bow - friction;
  state[GROUNDED] = rode.totalLength;
  return span;
}

/** Length on the ground of a rode that is pulled along it, m. */
function lay(rode: CompiledRode, bow: number, trace: Trace | null): number {
  let tension = bow - rode.restDrag * rode.totalLow;
  let x = 0;
  if (trace !== null) trace.rows = 0;
  for (let part = 0; part < rode.count; part++) {
    if (rode.isLine[part] === 0) {
      if (trace !== null) record(trace, part, POINT, x, 0, 0, Math.max(0, tension), 0, rode.low[part]!, 0, 0);
      tension += rode.restDrag * rode.low[part]!;
      continue;
    }
    const next = tension + rode.restDrag * rode.low[part]! * rode.length[part]!;
    stretchAtRest(rode, part, rode.length[part]!, tension, next);
    const run = rest[RUN]!;
    if (trace !== null)
      record(trace, part, RESTING, x, 0, rode.length[part]!, Math.max(0, tension), tension, next, run, 0);
    x += run;
    tension = next;
  }
  return x;
}

/** Settles a rig from its other end, by the routine given, and turns the answer about. */
export function settleTurned(
  rig: Rig,
  pull: Pull,
  settleTraced: (rig: Rig, pull: Pull) => SettledTrace | NoEquilibrium,
): SettledTrace | NoEquilibrium {
  const { setting } = rig;
  if (setting.medium !== "air") return noEquilibrium("unknownState", 0, 0);
  const turned: Rig = {
    ...rig,
    setting: { ...setting, rise: -setting.rise, bottomSlope: -setting.bottomSlope },
    rode: [...rig.rode].reverse(),
  };
  const at = pull.at === "anchor" ? "bow" : pull.at === "bow" ? "anchor" : pull.at;
  const answer = settleTraced(turned, at === "span" || pull.at === "span" ? pull : { at, newtons: pull.newtons });
  if (!("settled" in answer)) return answer;
  const { settled } = answer;
  const integrals = integralsTurned(answer.integrals, rig.rode, setting.rise);
  const angle = -settled.bow.angle;
  const own: Settled = {
    ...settled,
    anchor: { tension: settled.bow.tension, angle, angleToBottom: angle - setting.bottomSlope },
    bow: { tension: settled.anchor.tension, angle: -settled.anchor.angle },
    scope: settled.scope * -1,
    energy: { lift: integrals.lift, stretch: integrals.strain },
  };
  return { ...answer, settled: own, integrals, rode: compile(turned), turned: true };
}

/** Heights count from the anchor, which is the higher end. */
function integralsTurned(own: RodeIntegrals, rode: readonly Part[], rise: number): RodeIntegrals {
  const weight = (part: Part): number =>
    GRAVITY * (part.kind === "line" ? part.massPerLength * part.length : part.mass);
  const lift = Float64Array.from([...own.byPart.lift].reverse(), (each, i) => each + rise * weight(rode[i]!));
  return {
    ...own,
    lift: lift.reduce((a, b) => a + b, 0),
    byPart: {
      lift,
      strain: Float64Array.from([...own.byPart.strain].reverse()),
      stretch: Float64Array.from([...own.byPart.stretch].reverse()),
    },
  };
}
