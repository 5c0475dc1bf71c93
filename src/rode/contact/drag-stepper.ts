/**
 * Steps along a rode in a current: the equations of piece.ts with drag added,
 *
 *     dH/ds = −(1 + ε) f_x,   dV/ds = w − (1 + ε) f_z,   dx/ds, dz/ds as there,
 *
 * where f is the force of the flow per stretched length. With the flow U split along and across the line (unit vector
 * along it (H, V)/T), f = ½ρ d (C_across |U_n| U_n + C_along |U_t| U_t), after Morison's form for steady flow; d is the
 * nominal diameter. Only rode under water and off the bottom is dragged. Marched by an extrapolated midpoint rule of order
 * 12, local error 1e-12 of the rode's length and tension. The solutions bend within a length of T over the force per
 * length, which says beforehand how far a step may go.
 */
import { brent, extrapolatedStep } from "../../numeric/index.ts";
import type { CompiledRode } from "../compile.ts";
import type { LinePart, Rig } from "../model.ts";
import type { Cursor } from "./cursor.ts";
import { bandAt, blurOf, type Stepper, weightAt } from "./stepper.ts";

/** Drag coefficients on the nominal diameter. Chain: DNV-OS-E301, studless, recalled; others: a rough cylinder, recalled. */
export const DRAG = { chain: { across: 2.4, along: 1.15 }, other: { across: 1.2, along: 0.03 } } as const;

const TOLERANCE = 1e-12;
const COLUMNS = 6;
/** First try of a step, as a share of T over the force per length: most are kept. */
const BOLD = 0.4;

/** Nominal diameter; where none is stated the circle that holds the displaced volume, m. */
export function dragDiameter(part: LinePart): number {
  return part.diameter ?? Math.sqrt((4 * part.massPerLength) / (part.density * Math.PI));
}

export function dragStepper(rode: CompiledRode, rig: Rig): Stepper {
  const setting = rig.setting;
  const flow = setting.medium === "water" ? setting.current : 0;
  const density = setting.medium === "water" ? setting.waterDensity : 0;
  const across = new Float64Array(rode.count);
  const along = new Float64Array(rode.count);
  rig.rode.forEach((part, i) => {
    if (part.kind !== "line") return;
    const c = part.drag ?? (part.material === "chain" ? DRAG.chain : DRAG.other);
    const half = 0.5 * density * dragDiameter(part) * flow * Math.abs(flow);
    across[i] = half * c.across;
    along[i] = half * c.along;
  });
  /** Of the step under way: weight per length, drag across and along (none in air), strain intercept, compliance. */
  const w = new Float64Array(5);

  const slopes = (y: Float64Array, out: Float64Array): void => {
    const H = y[2]!;
    const V = y[3]!;
    const T = Math.sqrt(H * H + V * V);
    const stretch = 1 + w[3]! + w[4]! * T;
    const cos = T > 0 ? H / T : 1;
    const sin = T > 0 ? V / T : 0;
    // Across: U_n = U (sin², −sin cos), |U_n| = |U sin|. Along: U_t = U cos (cos, sin).
    const n = w[1]! * Math.abs(sin) * sin;
    const t = w[2]! * Math.abs(cos) * cos;
    out[0] = stretch * cos;
    out[1] = stretch * sin;
    out[2] = -stretch * (n * sin + t * cos);
    out[3] = w[0]! - stretch * (t * sin - n * cos);
  };
  const march = extrapolatedStep(4, slopes, COLUMNS);
  const from4 = new Float64Array(4);
  const y = new Float64Array(4);
  const lengths = rode.totalLength + rode.rise;

  /** One step of length h from `from` into `y`; returns the error estimate relative to the tolerance's scale. */
  const step = (from: Cursor, h: number): number => {
    Object.assign(stepped.from, from);
    stepped.length = h;
    from4[0] = from.x;
    from4[1] = from.z;
    from4[2] = from.H;
    from4[3] = from.V;
    const T = Math.sqrt(from.H * from.H + from.V * from.V);
    w[0] = weightAt(rode, from);
    w[1] = from.inAir ? 0 : across[from.part]!;
    w[2] = from.inAir ? 0 : along[from.part]!;
    const band = bandAt(rode, from.part, T, from.V * w[0]! >= 0);
    w[3] = rode.bandStrain[band]!;
    w[4] = rode.bandCompliance[band]!;
    march.step(from4, h, y);
    const { error } = march;
    const forces = T + Math.abs(rode.totalLow);
    const worst = Math.max(Math.max(error[0]!, error[1]!) / lengths, Math.max(error[2]!, error[3]!) / forces);
    return worst / TOLERANCE;
  };

  /** Where and how far `y` was last stepped to: a walk asks for the step that `reach` ended with. */
  const stepped = { from: { x: 0, z: 0, H: 0, V: 0, part: -1, offset: 0, inAir: false }, length: 0 };
  const stands = (from: Cursor, length: number): boolean => {
    const was = stepped.from;
    return (
      length === stepped.length &&
      from.offset === was.offset &&
      from.part === was.part &&
      from.H === was.H &&
      from.V === was.V &&
      from.x === was.x &&
      from.z === was.z &&
      from.inAir === was.inAir
    );
  };

  /** How far the first try of a step goes, m. */
  const boldly = (from: Cursor, most: number): number => {
    const force =
      Math.abs(weightAt(rode, from)) + (from.inAir ? 0 : Math.abs(across[from.part]!) + Math.abs(along[from.part]!));
    const T = Math.sqrt(from.H * from.H + from.V * from.V);
    const bold = (BOLD * T) / force;
    // What is left is gone in equal steps rather than in long ones and a short one.
    return bold < most ? most / Math.ceil(most / Math.max(bold, 1e-9 * most)) : most;
  };

  return {
    accuracy: 1e-12,
    least: 1e-6,
    at(from, length, into) {
      if (!stands(from, length)) step(from, length);
      into.part = from.part;
      into.offset = from.offset + length;
      into.inAir = from.inAir;
      into.x = y[0]!;
      into.z = y[1]!;
      into.H = y[2]!;
      into.V = y[3]!;
    },
    reach(from, most) {
      let h = boldly(from, most);
      for (let i = 0; i < 40; i++) {
        const error = step(from, h);
        if (error <= 1) break;
        h *= Math.min(0.7, Math.max(0.1, 0.9 * error ** (-1 / (2 * COLUMNS - 1))));
      }
      // The step ends where V or V − H tan(slope) passes zero, or T meets a corner of the stretch law.
      const t = rode.tanSlope;
      const T0 = Math.sqrt(from.H * from.H + from.V * from.V);
      const corners = rode.firstBand[from.part + 1]! - rode.firstBand[from.part]! - 1;
      for (let mark = t === 0 ? 1 : 0; mark < 2 + corners; mark++) {
        const load = mark < 2 ? 0 : rode.bandLoad[rode.firstBand[from.part]! + mark - 1]!;
        if (mark >= 2 && Math.abs(T0 - load) <= 1e-12 * load) continue;
        const past = (H: number, V: number): number =>
          mark === 0 ? V - H * t : mark === 1 ? V : Math.sqrt(H * H + V * V) - load;
        const f0 = past(from.H, from.V);
        if (Math.abs(f0) <= blurOf(rode, T0)) continue;
        if (!stands(from, h)) step(from, h);
        const last = past(y[2]!, y[3]!);
        if (f0 * last >= 0) continue;
        const at = (length: number): number => {
          step(from, length);
          const f = past(y[2]!, y[3]!);
          // So near it is the mark itself, where rounding would have the search go on.
          return Math.abs(f) <= 1e-14 * T0 ? 0 : f;
        };
        h = brent(at, 0, h, 2e-15 * most, f0, last);
      }
      return h;
    },
  };
}
