/**
 * A boat on her rode: surge, sway and yaw in the plane, q = (x, y of her middle, heading ψ); ψ = 0 looks at −x, from where
 * the wind blows, and grows counter-clockwise. Ahead is f = (−cos ψ, −sin ψ), to port l = (sin ψ, −cos ψ).
 *
 * In the boat's own axes with u, v the speed through the water ahead and to port and r the rate of turn,
 *     m_x (u̇ − v r) = X + (m_y − m_x) v r      m_y (v̇ + u r) = Y + (m_y − m_x) u r      I ṙ = N − (m_y − m_x) u v
 * (Kirchhoff's equations; the last term is Munk's moment). Forces: wind at the boat's middle by her windage, its side force
 * ahead of the middle by a share of her length that falls as the wind comes abeam; cross-flow drag of the hull in strips, which
 * damps the turning too; lift of keel and hull as a wing of low aspect, (π/2) ρ D² u v; resistance ahead.
 * @source strips and Munk's moment: Newman, Marine Hydrodynamics (recalled); lift: Jones (1946), NACA Report 835 (recalled)
 */
import {
  type Boat,
  bodyDraughtOf,
  currentForce,
  inertiaOf,
  type WindSetting,
  waterlineOf,
  windForce,
} from "../sea/index.ts";
import type { Bow } from "./bow.ts";
import { type BowInWaves, wavesAtTime } from "./bow-in-waves.ts";
import { type WindInTime, windAtTime } from "./wind-in-time.ts";

export interface BoatAtAnchor {
  readonly boat: Boat;
  readonly air: WindSetting;
  readonly wind: WindInTime;
  readonly waves: BowInWaves | null;
  /** m above the anchor: the bow roller in still water; water from surface to bottom. */
  readonly roller: number;
  readonly depth: number;
  readonly waterDensity: number;
  /** m/s along x */
  readonly current: number;
}

/** Where the side force of the wind acts, ahead of the middle as a share of the length: LEAD + SHIFT (1 − 2|ε|/π). Assumed, no source. */
export const LEAD = 0.02;
export const SHIFT = 0.25;

const TABLE = 180;
const STRIPS = 9;

export function boatBow(given: BoatAtAnchor): Bow & { readonly reach: number } {
  const { boat, air, wind, waves, roller, current, waterDensity } = given;
  const inertia = inertiaOf(boat, waterDensity);
  const mx = inertia.surge.value;
  const my = inertia.sway.value;
  const turning = inertia.yaw.value;
  const reach = boat.length / 2;
  const waterline = waterlineOf(boat).value;
  const water = { waterDensity, viscosity: 1.19e-6, depth: given.depth };
  const ahead = currentForce(boat, 1, 0, water).along;
  const abeam = currentForce(boat, 1, Math.PI / 2, water).across;
  const lift = 0.5 * Math.PI * waterDensity * boat.draught ** 2;
  const windAlong = new Float64Array(TABLE + 1);
  const windAcross = new Float64Array(TABLE + 1);
  for (let i = 0; i <= TABLE; i++) {
    const force = windForce(boat, 1, (Math.PI * i) / TABLE, air);
    windAlong[i] = force.along;
    windAcross[i] = force.across;
  }
  const now = new Float64Array(2);
  const wave = new Float64Array(3);
  /** Times wind and waves were last worked out for. */
  const windTime = Float64Array.of(Number.NaN);
  const waveTime = Float64Array.of(Number.NaN);
  const wavesAt = (t: Float64Array): void => {
    if (waves === null || t[0] === waveTime[0]) return;
    wavesAtTime(waves, t, wave);
    waveTime[0] = t[0]!;
  };

  return {
    reach,
    led: false,
    path: () => {},
    place(q, t, p, drift, byQ) {
      const c = Math.cos(q[2]!);
      const s = Math.sin(q[2]!);
      wavesAt(t);
      p[0] = q[0]! - reach * c;
      p[1] = q[1]! - reach * s;
      p[2] = roller + wave[1]!;
      drift[0] = 0;
      drift[1] = 0;
      drift[2] = wave[2]!;
      byQ.fill(0);
      byQ[0] = 1;
      byQ[2] = reach * s;
      byQ[4] = 1;
      byQ[5] = -reach * c;
    },
    inertia(q, out) {
      const c = Math.cos(q[2]!);
      const s = Math.sin(q[2]!);
      out.fill(0);
      out[0] = mx * c * c + my * s * s;
      out[1] = (mx - my) * c * s;
      out[3] = out[1]!;
      out[4] = mx * s * s + my * c * c;
      out[8] = turning;
    },
    force(q, rate, t, out, damping, stiffness) {
      const c = Math.cos(q[2]!);
      const s = Math.sin(q[2]!);
      if (t[0] !== windTime[0]) {
        windAtTime(wind, t, now);
        windTime[0] = t[0]!;
      }
      wavesAt(t);
      // Wind past the boat, from ahead and from port.
      const ax = now[0]! * Math.cos(now[1]!) - rate[0]!;
      const ay = now[0]! * Math.sin(now[1]!) - rate[1]!;
      const fromAhead = ax * c + ay * s;
      const fromPort = -ax * s + ay * c;
      const squared = ax * ax + ay * ay;
      const angle = Math.atan2(Math.abs(fromPort), fromAhead);
      const place = (angle * TABLE) / Math.PI;
      const i = Math.min(TABLE - 1, Math.floor(place));
      const share = place - i;
      const aft = squared * (windAlong[i]! + share * (windAlong[i + 1]! - windAlong[i]!));
      const leeward = squared * (windAcross[i]! + share * (windAcross[i + 1]! - windAcross[i]!));
      const side = fromPort > 0 ? -leeward : leeward;
      // Water past the hull.
      const wx = rate[0]! - current;
      const wy = rate[1]!;
      const r = rate[2]!;
      const u = -wx * c - wy * s;
      const v = wx * s - wy * c;
      let strips = 0;
      let turn = 0;
      let stripDamp = 0;
      let turnDamp = 0;
      for (let k = 0; k < STRIPS; k++) {
        const x = waterline * ((k + 0.5) / STRIPS - 0.5);
        const w = v + x * r;
        const f = (abeam / STRIPS) * Math.abs(w);
        strips -= f * w;
        turn -= f * w * x;
        stripDamp += 2 * f;
        turnDamp += 2 * f * x * x;
      }
      const drag = ahead * Math.abs(u);
      const wing = lift * Math.abs(u);
      const X = -drag * u - aft + (my - mx) * v * r;
      const Y = strips + side - wing * v + (my - mx) * u * r;
      const N = turn + side * boat.length * (LEAD + SHIFT * (1 - (2 * angle) / Math.PI)) - (my - mx) * u * v;
      out[0] = -X * c + Y * s + mx * wave[0]!;
      out[1] = -X * s - Y * c;
      out[2] = N;
      // Damping ahead and to port, turned into x and y.
      const dx = 2 * drag;
      const dy = stripDamp + wing;
      damping.fill(0);
      damping[0] = dx * c * c + dy * s * s;
      damping[1] = (dx - dy) * c * s;
      damping[3] = damping[1]!;
      damping[4] = dx * s * s + dy * c * c;
      damping[8] = turnDamp;
      stiffness.fill(0);
    },
  };
}

/** Draught and waterline that the waves move. */
export function hullInWaves(boat: Boat): { waterline: number; draught: number; reach: number } {
  return { waterline: waterlineOf(boat).value, draught: bodyDraughtOf(boat).value, reach: boat.length / 2 };
}
