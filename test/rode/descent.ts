/**
 * How far an answer is from an equilibrium, worked out again from the rig and the printed answer alone, from the bow down
 * to the anchor: the other way than the solver goes, in the textbook's forms or by Gauss's quadrature, and with nothing
 * of the solver but the answer it gave.
 */
import {
  GRAVITY,
  type LinePart,
  type PointPart,
  type Pull,
  type Rig,
  riseOf,
  type Settled,
} from "../../src/rode/index.ts";

/** Nodes and weights of Gauss–Legendre quadrature on (−1, 1), by Newton on the Legendre polynomial. */
function gauss(n: number): readonly [nodes: Float64Array, weights: Float64Array] {
  const nodes = new Float64Array(n);
  const weights = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    let x = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 1;
    for (let turn = 0; turn < 8; turn++) {
      let [before, here] = [1, x];
      for (let k = 2; k <= n; k++) [before, here] = [here, ((2 * k - 1) * x * here - (k - 1) * before) / k];
      slope = (n * (x * here - before)) / (x * x - 1);
      x -= here / slope;
    }
    nodes[i] = x;
    weights[i] = 2 / ((1 - x * x) * slope * slope);
  }
  return [nodes, weights];
}
const [NODES, WEIGHTS] = gauss(16);

interface Band {
  readonly from: number;
  readonly to: number;
  readonly strainAtZero: number;
  readonly compliance: number;
}

/** The stretch law as CONTRACT has it: straight between points from (0, 0), and on with the last slope. */
export function bandsOf(line: LinePart): Band[] {
  const law = line.stretch;
  if (law.kind === "rigid") return [{ from: 0, to: Number.POSITIVE_INFINITY, strainAtZero: 0, compliance: 0 }];
  if (law.kind === "linear")
    return [{ from: 0, to: Number.POSITIVE_INFINITY, strainAtZero: 0, compliance: 1 / law.stiffness }];
  const corners = [[0, 0] as const, ...law.points];
  return law.points.map(([strain, load], i) => {
    const [strain0, load0] = corners[i]!;
    const compliance = (strain - strain0) / (load - load0);
    const to = i + 1 < law.points.length ? load : Number.POSITIVE_INFINITY;
    return { from: load0, to, strainAtZero: strain0 - compliance * load0, compliance };
  });
}

export function strainAt(bands: readonly Band[], tension: number): number {
  const band = bands.findLast((each) => tension >= each.from) ?? bands[0]!;
  return band.strainAtZero + band.compliance * Math.max(0, tension);
}

/** x, z and stretched length of a piece in one band, its vertical force running from Va to Vb. */
export function integrate(
  H: number,
  Va: number,
  Vb: number,
  l: number,
  band: Band,
): [x: number, z: number, run: number] {
  const { strainAtZero: c, compliance: k } = band;
  if (H === 0) {
    // Straight down, whichever way rounding turns the force where it ends.
    const run = l * (1 + c + 0.5 * k * (Math.abs(Va) + Math.abs(Vb)));
    return [0, run, run];
  }
  const middle = 0.5 * (Va + Vb);
  const change = Vb - Va;
  if (Math.hypot(middle, H) >= 0.8 * Math.abs(change)) {
    let [x, z, run] = [0, 0, 0];
    for (let i = 0; i < NODES.length; i++) {
      const V = middle + 0.5 * change * NODES[i]!;
      const T = Math.hypot(H, V);
      const stretch = 0.5 * l * WEIGHTS[i]! * (1 + c + k * T);
      if (T > 0) {
        x += (stretch * H) / T;
        z += (stretch * V) / T;
      }
      run += stretch;
    }
    return [x, z, run];
  }
  const w = change / l;
  const Ta = Math.hypot(H, Va);
  const Tb = Math.hypot(H, Vb);
  const turn = Math.asinh(Vb / H) - Math.asinh(Va / H);
  return [
    H * (((1 + c) * turn) / w + k * l),
    ((1 + c) * (Tb - Ta)) / w + (0.5 * k * (Vb * Vb - Va * Va)) / w,
    (1 + c) * l + (0.5 * k * (Vb * Tb - Va * Ta + H * H * turn)) / w,
  ];
}

/** A line hanging down from its upper end, `l` m of it: position of the lower end below, and stretched length. */
export function hang(
  H: number,
  V: number,
  w: number,
  l: number,
  bands: readonly Band[],
): [x: number, z: number, run: number] {
  const marks = [0, l];
  if (w !== 0) {
    const mark = (target: number): void => {
      const s = (V - target) / w;
      if (s > 0 && s < l) marks.push(s);
    };
    mark(0);
    for (const { from } of bands) {
      if (from <= H) continue;
      const v = Math.sqrt(from * from - H * H);
      mark(v);
      mark(-v);
    }
    marks.sort((a, b) => a - b);
  }
  let [x, z, run] = [0, 0, 0];
  for (let i = 1; i < marks.length; i++) {
    const [a, b] = [marks[i - 1]!, marks[i]!];
    if (!(b > a)) continue;
    const middle = Math.hypot(H, V - w * 0.5 * (a + b));
    const band = bands.findLast((each) => middle >= each.from) ?? bands[0]!;
    const [dx, dz, dr] = integrate(H, V - w * b, V - w * a, b - a, band);
    x += dx;
    z += dz;
    run += dr;
  }
  return [x, z, run];
}

/** Length from the upper end at which a hanging line has come down by `drop`; l or more: it does not. */
function lengthToDrop(H: number, V: number, w: number, l: number, bands: readonly Band[], drop: number): number {
  // It comes down no farther than to where its vertical force is zero.
  const lowest = Math.min(l, V / w);
  if (hang(H, V, w, lowest, bands)[1] <= drop) return l;
  let [lo, hi] = [0, lowest];
  let s = Math.min(0.5 * lowest, drop);
  for (let i = 0; i < 100 && hi - lo > 1e-15 * l; i++) {
    const f = hang(H, V, w, s, bands)[1] - drop;
    if (f < 0) lo = s;
    else hi = s;
    const v = V - w * s;
    const T = Math.hypot(H, v);
    const next = s - (f * T) / ((1 + strainAt(bands, T)) * v);
    s = next > lo && next < hi ? next : 0.5 * (lo + hi);
    if (next === s && Math.abs(f) < 1e-15 * (drop + l)) break;
  }
  return s;
}

/** What is wrong with an answer, each as a share of what it should be; `worst` names the largest. */
export interface Residual {
  readonly worst: number;
  readonly which: string;
}

/** Stretched length of rode at rest whose tension runs straight from T1 to T2 over l m; what would be below zero is slack. */
export function restingRun(l: number, T1: number, T2: number, bands: readonly Band[]): number {
  const cuts = [0, 1];
  for (const { from } of bands) {
    const share = (from - T1) / (T2 - T1);
    if (share > 0 && share < 1) cuts.push(share);
  }
  cuts.sort((a, b) => a - b);
  let run = 0;
  for (let i = 1; i < cuts.length; i++) {
    const [a, b] = [cuts[i - 1]!, cuts[i]!];
    // Strain is straight in T between corners: its middle value is its mean.
    const T = T1 + (T2 - T1) * 0.5 * (a + b);
    run += l * (b - a) * (1 + (T > 0 ? strainAt(bands, T) : 0));
  }
  return run;
}

/** Vertical force just below a point in the surface, from what lies below it: all of that is under water. */
function fromBelow(rig: Rig, settled: Settled, part: number, hanging: number, grounded: boolean): number {
  const { bottomSlope: slope, bottomFriction } = rig.setting;
  const water = rig.setting.medium === "water" ? rig.setting.waterDensity : 0;
  const weigh = (each: LinePart | PointPart, l: number): number =>
    (each.kind === "line" ? l * each.massPerLength : each.mass) * GRAVITY * (1 - water / each.density);
  let V = grounded ? settled.horizontal * Math.tan(slope) : settled.anchor.tension * Math.sin(settled.anchor.angle);
  let left = hanging;
  for (let i = part - 1; i >= 0; i--) {
    const here = rig.rode[i]!;
    if (grounded && left <= 0 && here.kind === "point") {
      // The bottom bears part of it: as much as friction tells from the anchor's load.
      const resting = rig.rode
        .slice(0, i + 1)
        .reduce((sum, each) => sum + weigh(each, each.kind === "line" ? each.length : 0), 0);
      const drag = Math.sin(slope) + bottomFriction * Math.cos(slope);
      V += resting - (settled.horizontal / Math.cos(slope) - settled.anchor.tension) / drag;
      break;
    }
    const l = here.kind === "line" ? Math.min(here.length, left) : 0;
    left -= l;
    V += weigh(here, l);
  }
  return V;
}

/**
 * @param settled of a rode heavier than its water, in still water or air
 */
export function residualOf(rig: Rig, pull: Pull, settled: Settled): Residual {
  const { setting, rode } = rig;
  const rise = riseOf(setting);
  const surface = setting.medium === "water" ? setting.depth : Number.POSITIVE_INFINITY;
  const water = setting.medium === "water" ? setting.waterDensity : 0;
  const H = settled.horizontal;
  const slope = setting.bottomSlope;
  const drag = Math.sin(slope) + setting.bottomFriction * Math.cos(slope);
  const total = rode.reduce((sum, part) => sum + (part.kind === "line" ? part.length : 0), 0);
  const lengths = total + rise + settled.span;
  const forces = settled.bow.tension + settled.anchor.tension;
  let worst = 0;
  let which = "";
  const check = (name: string, off: number): void => {
    const size = Math.abs(off);
    if (!(size <= worst)) {
      worst = Number.isNaN(size) ? Number.POSITIVE_INFINITY : size;
      which = name;
    }
  };

  if (pull.at === "span") check("span given", (settled.span - pull.metres) / pull.metres);
  else {
    const found = { anchor: settled.anchor.tension, bow: settled.bow.tension, horizontal: H }[pull.at];
    // The load at the anchor is the bow's less friction: it can be no sharper than the larger one's rounding.
    check("load given", (found - pull.newtons) / (pull.newtons + 1e-4 * forces));
  }
  check("lengths add up", (settled.grounded + settled.lifted - total) / total);
  check("H at the bow", (settled.bow.tension * Math.cos(settled.bow.angle) - H) / forces);

  let x = settled.span;
  let z = rise;
  let V = settled.bow.tension * Math.sin(settled.bow.angle);
  let run = 0;
  let hanging = settled.lifted;
  const grounded = settled.grounded > 1e-12 * total || settled.anchor.angleToBottom === 0;
  let part = rode.length - 1;
  /** Of the part in which the rode leaves the bottom, what hangs, m. */
  let hung = 0;
  const lastLine = rode.findLastIndex((each) => each.kind === "line");
  // What hangs.
  for (; part >= 0; part--) {
    const here = rode[part]!;
    if (here.kind === "point") {
      // A point where the rode comes to rest may be borne in part by the bottom: seen to below.
      if (grounded && hanging <= 1e-12 * total) break;
      const dry = here.mass * GRAVITY;
      const wet = dry * (1 - water / here.density);
      if (part < lastLine && Math.abs(z - surface) <= 1e-9 * (total + rise)) {
        // Points in the surface weigh something between: what the forces on both sides of them leave over.
        let [dries, wets] = [dry, wet];
        for (let next = rode[part - 1]; next?.kind === "point"; next = rode[--part - 1]) {
          dries += next.mass * GRAVITY;
          wets += next.mass * GRAVITY * (1 - water / next.density);
        }
        const below = fromBelow(rig, settled, part, hanging, grounded);
        const weight = V - below;
        check("weight in the surface", Math.max(0, wets - weight, weight - dries) / forces);
        V = below;
      } else V -= z > surface || part > lastLine ? dry : wet;
      continue;
    }
    const bands = bandsOf(here);
    let left = Math.min(here.length, hanging);
    const whole = hanging >= here.length * (1 - 1e-13) || !grounded;
    if (whole) left = here.length;
    else hung = left;
    if (z > surface) {
      const w = here.massPerLength * GRAVITY;
      const l = lengthToDrop(H, V, w, left, bands, z - surface);
      const [dx, dz, dr] = hang(H, V, w, l, bands);
      x -= dx;
      z -= dz;
      run += dr;
      V -= w * l;
      left -= l;
      hanging -= l;
    }
    if (left > 0) {
      const w = here.massPerLength * GRAVITY * (1 - water / here.density);
      const [dx, dz, dr] = hang(H, V, w, left, bands);
      x -= dx;
      z -= dz;
      run += dr;
      V -= w * left;
      hanging -= left;
    }
    if (!whole) break;
  }
  if (!grounded) {
    check("V at the anchor", (settled.anchor.tension * Math.sin(settled.anchor.angle) - V) / forces);
    check("H at the anchor", (settled.anchor.tension * Math.cos(settled.anchor.angle) - H) / forces);
    check("angle to the bottom", Math.min(0, settled.anchor.angleToBottom));
  } else {
    let T = H / Math.cos(slope);
    let left = settled.grounded;
    let first = true;
    for (; part >= 0; part--) {
      const here = rode[part]!;
      const weight = (here.kind === "line" ? here.massPerLength : here.mass) * GRAVITY * (1 - water / here.density);
      if (here.kind === "point") {
        if (first && V - H * Math.tan(slope) >= -1e-11 * forces) {
          // The rode comes down to this point: the bottom bears what the rode above does not.
          const borne = weight - (V - H * Math.tan(slope));
          if (borne < 0) {
            // Wholly carried by the rode above.
            V -= weight;
            continue;
          }
          V = H * Math.tan(slope);
          first = false;
          T -= drag * borne;
          continue;
        }
        T -= drag * weight;
        continue;
      }
      if (first) check("leaves the bottom along it", (V - H * Math.tan(slope)) / forces);
      first = false;
      const l = here.length - hung;
      hung = 0;
      const lower = T - drag * weight * l;
      const rest = restingRun(l, lower, T, bandsOf(here));
      x -= rest * Math.cos(slope);
      z -= rest * Math.sin(slope);
      run += rest;
      T = lower;
      left -= l;
    }
    if (first) check("leaves the bottom along it", (V - H * Math.tan(slope)) / forces);
    check("what rests is the rest", left / total);
    check("tension at the anchor", (settled.anchor.tension - Math.max(0, T)) / forces);
    check("angle at the anchor", settled.anchor.angle - slope);
  }
  if (H === 0 && pull.at === "span") {
    // A slack rode: what rests may lie in any heap between the anchor and the bottom under the bow.
    check("slack reaches", Math.min(0, settled.grounded - pull.metres / Math.cos(slope)) / lengths);
    const under = pull.metres * Math.tan(slope);
    check("hangs from the bow to the bottom", (z + settled.grounded * Math.sin(slope) - under) / lengths);
  } else {
    check("x closes", x / lengths);
    check("z closes", z / lengths);
  }
  check("stretch", (run - total - settled.stretch) / lengths);
  return { worst, which };
}
