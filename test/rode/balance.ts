/**
 * Whether a settled rode, with whatever it touches, is an equilibrium: every stretch of it is weighed and integrated anew
 * in the order of its record, each neighbour must pull the next with equal and opposite force, the bottom and the surface
 * may only push the way they can, and nothing may lie under the one or float over the other.
 */
import { GRAVITY, type LinePart, type Pull, type Rig, riseOf, type SettledTrace } from "../../src/rode/index.ts";
import {
  AFLOAT,
  LIFTED,
  POINT,
  R_H,
  R_KIND,
  R_LENGTH,
  R_PART,
  R_RUN,
  R_V1,
  R_W,
  R_X,
  R_Z,
  RESTING,
  TRACE_COLUMNS,
} from "../../src/rode/trace.ts";
import { bandsOf, hang, type Residual, restingRun, strainAt } from "./descent.ts";

/** @param traced of a rode in still water or air */
export function imbalanceOf(rig: Rig, pull: Pull, traced: SettledTrace): Residual {
  const { settled, trace } = traced;
  const { setting } = rig;
  const surface = setting.medium === "water" ? setting.depth : Number.POSITIVE_INFINITY;
  const water = setting.medium === "water" ? setting.waterDensity : 0;
  const slope = setting.bottomSlope;
  const [sin, cos, tan] = [Math.sin(slope), Math.cos(slope), Math.tan(slope)];
  const drag = sin + setting.bottomFriction * cos;
  const total = rig.rode.reduce((sum, part) => sum + (part.kind === "line" ? part.length : 0), 0);
  const lengths = total + riseOf(setting) + settled.span;
  const hefts = rig.rode.reduce((sum, part) => sum + Math.abs(weigh(rig, part, true)), 0);
  const forces = settled.bow.tension + settled.anchor.tension + 1e-3 * hefts;
  let worst = 0;
  let which = "";
  const check = (name: string, off: number): void => {
    const size = Math.abs(off);
    if (size <= worst) return;
    worst = Number.isNaN(size) ? Number.POSITIVE_INFINITY : size;
    which = name;
  };
  const near = 1e-9 * (total + riseOf(setting));

  if (pull.at === "span") check("span given", (settled.span - pull.metres) / pull.metres);
  else {
    const found = { anchor: settled.anchor.tension, bow: settled.bow.tension, horizontal: settled.horizontal }[pull.at];
    check("load given", (found - pull.newtons) / (pull.newtons + 1e-4 * forces));
  }
  const rows = Array.from({ length: trace.rows }, (_, row) =>
    trace.data.subarray(row * TRACE_COLUMNS, (row + 1) * TRACE_COLUMNS),
  );
  /** Tension with which the rode above a row's lower end pulls. */
  const startOf = (row: Float64Array): [H: number, V: number] =>
    row[R_KIND] === RESTING
      ? [Math.max(0, row[R_V1]!) * cos, Math.max(0, row[R_V1]!) * sin]
      : row[R_KIND] === AFLOAT
        ? [row[R_H]!, 0]
        : [row[R_H]!, row[R_V1]!];
  const bow: [number, number] = [
    settled.bow.tension * Math.cos(settled.bow.angle),
    settled.bow.tension * Math.sin(settled.bow.angle),
  ];
  let [x, z] = [0, 0];
  let [H, V] = [
    settled.anchor.tension * Math.cos(settled.anchor.angle),
    settled.anchor.tension * Math.sin(settled.anchor.angle),
  ];
  const laid = rig.rode.map(() => 0);
  let stretched = 0;
  let grounded = 0;
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i]!;
    check("x joins", (row[R_X]! - x) / lengths);
    check("z joins", (row[R_Z]! - z) / lengths);
    const part = rig.rode[row[R_PART]!]!;
    if (row[R_KIND] === POINT) {
      let [wet, dry] = [0, 0];
      for (; rows[i]?.[R_KIND] === POINT; i++) {
        const point = rig.rode[rows[i]![R_PART]!]!;
        laid[rows[i]![R_PART]!]! += 1;
        wet += weigh(rig, point, true);
        dry += weigh(rig, point, false);
      }
      const atBow = i === rows.length;
      const [H2, V2] = atBow ? bow : startOf(rows[i]!);
      i--;
      const [dH, dV] = [H2 - H, V2 - V];
      if (!atBow && Math.abs(z - surface) <= near) {
        check("H past a point in the surface", dH / forces);
        check("water bears no more than it can", Math.max(0, wet - dV, dV - dry) / forces);
      } else if (z - x * tan <= near && !(z > surface)) {
        // N pushes square off the bottom; friction F holds back along it: μN, or less where it is slack below.
        const N = dH * sin + (wet - dV) * cos;
        const F = dH * cos - (wet - dV) * sin;
        const held = F - setting.bottomFriction * N;
        check("friction under a point", (H === 0 ? Math.max(0, held) : held) / forces);
        check("the bottom only pushes", Math.min(0, N) / forces);
      } else {
        check("H past a point", dH / forces);
        check("a point's weight", (dV - (z > surface || atBow ? dry : wet)) / forces);
      }
      [H, V] = [H2, V2];
      continue;
    }
    const line = part as LinePart;
    const l = row[R_LENGTH]!;
    laid[row[R_PART]!]! += l;
    if (l === 0) continue;
    const [H1, V1] = startOf(row);
    check("neighbours pull alike across", (H1 - H) / forces);
    check("neighbours pull alike upward", (V1 - V) / forces);
    if (row[R_KIND] === LIFTED) {
      const wet = weigh(rig, line, true) / line.length;
      const dry = weigh(rig, line, false) / line.length;
      const inAir = Math.abs(row[R_W]! - dry) < Math.abs(row[R_W]! - wet);
      const w = inAir ? dry : wet;
      const bands = bandsOf(line);
      for (const share of [0.1, 0.3, 0.5, 0.7, 0.9]) {
        const [, dz] = hang(H, V + w * l * share, w, l * share, bands);
        const [dx] = hang(H, V + w * l * share, w, l * share, bands);
        check("nothing under the bottom", Math.min(0, z + dz - (x + dx) * tan) / lengths);
        if (water > 0) check("its own medium", Math.max(0, inAir ? surface - z - dz : z + dz - surface) / lengths);
      }
      const [dx, dz, run] = hang(H, V + w * l, w, l, bands);
      x += dx;
      z += dz;
      V += w * l;
      stretched += run;
    } else if (row[R_KIND] === AFLOAT) {
      check("afloat in the surface", (z - surface) / lengths);
      if (!(line.density < water)) check("what floats is lighter than water", 1);
      const run = l * (1 + strainAt(bandsOf(line), H));
      x += run;
      stretched += run;
    } else {
      check("rests on the bottom", (z - x * tan) / lengths);
      const w = weigh(rig, line, true) / line.length;
      if (w < 0) check("what rests is heavier than water", 1);
      const [T1, T2] = [row[R_V1]!, row[R_W]!];
      const slack = H === 0 && T1 === 0 && T2 === 0;
      if (!slack) check("friction along what rests", (T2 - T1 - drag * w * l) / forces);
      const run = restingRun(l, T1, T2, bandsOf(line));
      const covered = slack ? row[R_RUN]! : run;
      x += covered * cos;
      z += covered * sin;
      stretched += run;
      grounded += l;
      [H, V] = [Math.max(0, T2) * cos, Math.max(0, T2) * sin];
    }
  }
  check("H at the bow", (bow[0] - H) / forces);
  check("V at the bow", (bow[1] - V) / forces);
  check("x at the bow", (settled.span - x) / lengths);
  check("z at the bow", (riseOf(setting) - z) / lengths);
  check("grounded", (settled.grounded - grounded) / lengths);
  check("stretch", (settled.stretch - (stretched - total)) / lengths);
  rig.rode.forEach((part, i) => {
    check(`all of part ${i + 1}`, laid[i]! / (part.kind === "line" ? part.length : 1) - 1);
  });
  return { worst, which };
}

function weigh(rig: Rig, part: Rig["rode"][number], inWater: boolean): number {
  const water = rig.setting.medium === "water" && inWater ? rig.setting.waterDensity : 0;
  const mass = part.kind === "line" ? part.massPerLength * part.length : part.mass;
  return mass * GRAVITY * (1 - water / part.density);
}
