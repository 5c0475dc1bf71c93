/**
 * Steps along a rode in a current: the equations of piece.ts with drag added,
 *
 *     dH/ds = −(1 + ε) f_x,   dV/ds = w − (1 + ε) f_z,   dx/ds, dz/ds as there,
 *
 * where f is the force of the flow per stretched length. With the flow U split along and across the line (unit vector
 * along it (H, V)/T), f = ½ρ d (C_across |U_n| U_n + C_along |U_t| U_t), after Morison's form for steady flow; d is the
 * nominal diameter. Only rode under water and off the bottom is dragged. Marched by Dormand and Prince's pair of orders
 * 5 and 4 (J. Comput. Appl. Math. 6, 1980, 19–26), local error 1e-12 of the rode's length and tension.
 */
import type { CompiledRode } from "../compile.ts";
import type { LinePart, Rig } from "../model.ts";
import type { Cursor } from "./cursor.ts";
import { bandAt, blurOf, type Stepper, weightAt } from "./stepper.ts";

/** Drag coefficients on the nominal diameter. Chain: DNV-OS-E301, studless, recalled; others: a rough cylinder, recalled. */
export const DRAG = { chain: { across: 2.4, along: 1.15 }, other: { across: 1.2, along: 0.03 } } as const;

const TOLERANCE = 1e-12;

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
  const slopes = new Float64Array(7 * 4);
  const y = new Float64Array(4);
  const from4 = new Float64Array(4);
  const weight = { w: 0, part: 0, wet: false, strain: 0, compliance: 0 };

  const derive = (stage: number): void => {
    const H = y[2]!;
    const V = y[3]!;
    const T = Math.hypot(H, V);
    const stretch = 1 + weight.strain + weight.compliance * T;
    const cos = T > 0 ? H / T : 1;
    const sin = T > 0 ? V / T : 0;
    let fx = 0;
    let fz = 0;
    if (weight.wet) {
      // Across: U_n = U (sin², −sin cos), |U_n| = |U sin|. Along: U_t = U cos (cos, sin).
      const n = across[weight.part]! * Math.abs(sin);
      const t = along[weight.part]! * Math.abs(cos) * cos;
      fx = n * sin * sin + t * cos;
      fz = -n * sin * cos + t * sin;
    }
    const at = 4 * stage;
    slopes[at] = stretch * cos;
    slopes[at + 1] = stretch * sin;
    slopes[at + 2] = -stretch * fx;
    slopes[at + 3] = weight.w - stretch * fz;
  };

  /** One step of length h from `from4` into `y`; returns the error estimate relative to the tolerance's scale. */
  const step = (from: Cursor, h: number): number => {
    Object.assign(stepped.from, from);
    stepped.length = h;
    from4[0] = from.x;
    from4[1] = from.z;
    from4[2] = from.H;
    from4[3] = from.V;
    weight.w = weightAt(rode, from);
    weight.part = from.part;
    weight.wet = !from.inAir;
    const T = Math.hypot(from.H, from.V);
    const band = bandAt(rode, from.part, T, from.V * weight.w >= 0);
    weight.strain = rode.bandStrain[band]!;
    weight.compliance = rode.bandCompliance[band]!;
    for (let s = 0; s < 7; s++) {
      const row = TABLEAU[s]!;
      for (let i = 0; i < 4; i++) {
        let sum = 0;
        for (let j = 0; j < s; j++) sum += row[j]! * slopes[4 * j + i]!;
        y[i] = from4[i]! + h * sum;
      }
      derive(s);
    }
    let worst = 0;
    const lengths = rode.totalLength + rode.rise;
    const forces = T + Math.abs(rode.totalLow);
    for (let i = 0; i < 4; i++) {
      let e = 0;
      for (let j = 0; j < 7; j++) e += ERROR[j]! * slopes[4 * j + i]!;
      worst = Math.max(worst, Math.abs(h * e) / (i < 2 ? lengths : forces));
    }
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

  return {
    accuracy: 1e-12,
    least: 1e-6,
    at(from, length, into) {
      if (!stands(from, length)) step(from, length);
      const [x, z, H, V] = y;
      into.part = from.part;
      into.offset = from.offset + length;
      into.inAir = from.inAir;
      into.x = x!;
      into.z = z!;
      into.H = H!;
      into.V = V!;
    },
    reach(from, most) {
      let h = most;
      for (let i = 0; i < 40; i++) {
        const error = step(from, h);
        if (error <= 1) break;
        h *= Math.max(0.1, 0.9 * error ** -0.2);
      }
      // The step ends where V or V − H tan(slope) passes zero, or T meets a corner of the stretch law.
      const t = rode.tanSlope;
      const T0 = Math.hypot(from.H, from.V);
      const marks: ((H: number, V: number) => number)[] = [(_, V) => V];
      if (t !== 0) marks.push((H, V) => V - H * t);
      for (let j = rode.firstBand[from.part]! + 1; j < rode.firstBand[from.part + 1]!; j++) {
        const load = rode.bandLoad[j]!;
        if (Math.abs(T0 - load) > 1e-12 * load) marks.push((H, V) => Math.hypot(H, V) - load);
      }
      for (const mark of marks) {
        const f0 = mark(from.H, from.V);
        if (Math.abs(f0) <= blurOf(rode, T0)) continue;
        step(from, h);
        let fb = mark(y[2]!, y[3]!);
        if (f0 * fb >= 0) continue;
        let a = 0;
        let fa = f0;
        let b = h;
        for (let i = 0; i < 80 && b - a > 1e-15 * most; i++) {
          let m = i % 3 === 2 ? 0.5 * (a + b) : a - (fa * (b - a)) / (fb - fa);
          if (!(m > a && m < b)) m = 0.5 * (a + b);
          if (m <= a || m >= b) break;
          step(from, m);
          const f = mark(y[2]!, y[3]!);
          if (Math.abs(f) <= 1e-14 * T0) {
            b = m;
            break;
          }
          if (f * f0 > 0) {
            a = m;
            fa = f;
          } else {
            b = m;
            fb = f;
          }
        }
        h = b;
      }
      return h;
    },
  };
}

/** Dormand–Prince 5(4): rows of the tableau; the last is also the fifth-order solution. */
const TABLEAU: readonly (readonly number[])[] = [
  [],
  [1 / 5],
  [3 / 40, 9 / 40],
  [44 / 45, -56 / 15, 32 / 9],
  [19372 / 6561, -25360 / 2187, 64448 / 6561, -212 / 729],
  [9017 / 3168, -355 / 33, 46732 / 5247, 49 / 176, -5103 / 18656],
  [35 / 384, 0, 500 / 1113, 125 / 192, -2187 / 6784, 11 / 84],
];
const ERROR: readonly number[] = [71 / 57600, 0, -71 / 16695, 71 / 1920, -17253 / 339200, 22 / 525, -1 / 40];
