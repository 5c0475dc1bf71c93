/**
 * The hot part of the map: one snubber on the tabulated rode, from the steady force up until the surge is taken. Made once for
 * a map; what changes from cell to cell stands in variables of the maker, so that a cell allocates next to nothing.
 */
import { brent } from "../numeric/index.ts";
import { GRAVITY, type LinePart, type Rig, riseOf } from "../rode/index.ts";
import { type BelowHook, read, tabulate } from "./below-hook.ts";
import { type RopeEnds, type SnubberLoads, strengthInUse } from "./limits.ts";
import type { Rope } from "./rope-choice.ts";
import { energyOf, type Surge } from "./snatch.ts";
import type { SnubberColumn, SnubberKind } from "./snubber-column.ts";

const FORCES = 44;
const HEIGHTS = 20;
/** Lengths of chain below the hook that are tabulated where each length of snubber leaves another. */
const CHAINS = 8;
/** Highest force looked at, over the steady one. */
const REACH = 80;
const STEP = Math.log(REACH) / (FORCES - 1);
/** Density of a hook of which none is stated, kg/m³: steel. */
const STEEL = 7850;

export type CellEnd = "taken" | "unriggable" | "notTaken";

/** What a cell leaves behind when the surge is taken: overwritten by the next. */
export interface CellAnswer {
  readonly loads: { -readonly [Field in keyof SnubberLoads]: SnubberLoads[Field] };
  /** From the steady load to the peak, m. */
  movement: number;
}

export interface CellSolver {
  readonly answer: CellAnswer;
  /** @param share of the surge, its energy or its distance, that the rode at rest would have to take for the peak of the run */
  solve(rope: Rope, column: SnubberColumn, ends: RopeEnds, share: number): CellEnd;
}

/**
 * @param mean horizontal force, N
 * @param top index of the line next to the bow
 * @param longest reach and slack of the longest snubber looked at, m
 */
export function cellSolver(
  rig: Rig,
  top: number,
  kind: SnubberKind,
  surge: Surge,
  mean: number,
  longest: number,
): CellSolver {
  const { setting } = rig;
  const rise = riseOf(setting);
  const chain = rig.rode[top] as LinePart;
  const water = setting.medium === "water" ? setting.waterDensity : 0;
  const surface = setting.medium === "water" ? setting.depth : Number.NEGATIVE_INFINITY;
  const forces = Float64Array.from({ length: FORCES }, (_, k) => mean * REACH ** (k / (FORCES - 1)));
  const tables = tablesFor(rig, top, kind, forces, longest);
  const whole = surge.kind === "distance" ? surge.distance : energyOf(surge);
  const bySpeed = surge.kind !== "distance";
  const weakest = rig.rode.reduce(
    (least, part) => Math.min(least, part.workingLoad ?? Number.POSITIVE_INFINITY),
    Number.POSITIVE_INFINITY,
  );
  const answer: CellAnswer = {
    loads: { peak: 0, ropeShare: 0, workingLoadShare: 0, hook: 0, cleat: 0, anchorAngle: 0, loopShare: 0 },
    movement: 0,
  };

  // The cell: its table (two, and the share of the second), its joint law, weights in N.
  let [longer, shorter, mixed] = [tables[0]!.table, tables[0]!.table, 0];
  let strains = new Float64Array(0);
  let loads = new Float64Array(64);
  let [count, reach, ropeWeight, hookWet, hookDry] = [0, 0, 0, 0, 0];
  // The rung: span, root of the hook's height, vertical force of the chain at the hook, load and strain of rope and loop.
  let [span, root, hold, along, strain] = [0, 0, 0, 0, 0];

  const fromTable = (which: "out" | "hold" | "angle", k: number, r: number): number => {
    const one = read(longer, longer[which], k, r);
    return mixed === 0 ? one : one + mixed * (read(shorter, shorter[which], k, r) - one);
  };
  const strainAt = (load: number): number => {
    let i = 1;
    while (i < count - 1 && loads[i]! < load) i++;
    const f0 = loads[i - 1]!;
    if (load <= f0) return strains[i - 1]!;
    return strains[i - 1]! + ((load - f0) / (loads[i]! - f0)) * (strains[i]! - strains[i - 1]!);
  };
  /** Climb of the rope under a vertical force at its middle, m. */
  const climb = (H: number, V: number): number => {
    along = Math.sqrt(H * H + V * V);
    strain = strainAt(along);
    return (reach * (1 + strain) * V) / along;
  };
  const hookWeight = (height: number): number => (height > surface ? hookDry : hookWet);
  /** How far the rope's upper end comes above the roller with the hook at a height, m. */
  const over = (k: number, H: number, r: number): number => {
    hold = Math.max(0, fromTable("hold", k, r));
    return r * r + climb(H, hold + hookWeight(r * r) + 0.5 * ropeWeight) - rise;
  };

  /** Closes rung k; false where rode and rope together do not reach. */
  const close = (k: number): boolean => {
    const H = forces[k]!;
    const highest = Math.min(longer.highest, shorter.highest);
    const atBottom = over(k, H, 0);
    if (atBottom >= 0) return hookDown(k, H);
    const atHighest = over(k, H, highest);
    if (!(atHighest >= 0)) return false;
    // The height is the square of what is sought: to 1e-7 of the highest, some micrometres.
    root = brent((r) => over(k, H, r), 0, highest, 1e-7 * highest, atBottom, atHighest);
    over(k, H, root);
    span = fromTable("out", k, root) + (reach * (1 + strain) * H) / along;
    return !Number.isNaN(span);
  };

  /** A hook heavier than what lifts it lies on the bottom; the rope rises from there as steeply as the rise asks. */
  const hookDown = (k: number, H: number): boolean => {
    const heaviest = hold + hookWet + 0.5 * ropeWeight;
    climb(
      H,
      brent((V) => climb(H, V) - rise, 0, heaviest, 1e-9 * heaviest),
    );
    root = 0;
    hold = 0;
    span = fromTable("out", k, 0) + (reach * (1 + strain) * H) / along;
    return !Number.isNaN(span);
  };

  const take = (rope: Rope, column: SnubberColumn): boolean => {
    const taken = kind.hooked === "within" ? column.reach + (kind.slack ?? 0) : 0;
    const length = chain.length - taken;
    if (!(length > 0)) return false;
    let i = 1;
    while (i < tables.length - 1 && tables[i]!.length > length) i++;
    longer = tables[i - 1]!.table;
    shorter = tables[i]?.table ?? longer;
    mixed = tables.length === 1 ? 0 : (tables[i - 1]!.length - length) / (tables[i - 1]!.length - tables[i]!.length);
    strains = column.strain as Float64Array<ArrayBuffer>;
    count = strains.length;
    if (loads.length < count) loads = new Float64Array(2 * count);
    for (let n = 0; n < count; n++) loads[n] = rope.breakingLoad * column.rope[n]! + column.loop[n]!;
    reach = column.reach;
    const mass = (kind.hook?.mass ?? 0) + 0.5 * column.loopLength * chain.massPerLength;
    hookDry = mass * GRAVITY;
    hookWet = hookDry * (1 - water / (kind.hook?.density ?? STEEL));
    ropeWeight = rope.massPerLength * column.ropeLength * GRAVITY * (1 - water / rope.density);
    return true;
  };

  const solve = (rope: Rope, column: SnubberColumn, ends: RopeEnds, share: number): CellEnd => {
    const wanted = share * whole;
    if (!take(rope, column) || !close(0)) return "unriggable";
    const x0 = span;
    let have = 0;
    for (let k = 1; k < FORCES; k++) {
      const [xBefore, rootBefore, holdBefore, alongBefore] = [span, root, hold, along];
      if (!close(k)) return "notTaken";
      const [Ha, Hb] = [forces[k - 1]!, forces[k]!];
      const slope = (span - xBefore) / STEP;
      const more = bySpeed ? slope * (Hb - Ha - mean * STEP) : span - xBefore;
      if (have + more < wanted) {
        have += more;
        continue;
      }
      const part = bySpeed ? shareTaking(Ha, mean, (wanted - have) / slope) : (wanted - have) / more;
      const H = Ha * Math.exp(part * STEP);
      const height = rootBefore * rootBefore + part * (root * root - rootBefore * rootBefore);
      const held = H * (holdBefore / Ha + part * (hold / Hb - holdBefore / Ha));
      const pull = H * (alongBefore / Ha + part * (along / Hb - alongBefore / Ha));
      const lower = fromTable("angle", k - 1, rootBefore);
      const there = strainAt(pull);
      const ropePull = Math.min(pull, rope.breakingLoad * valueAt(strains, column.rope, there));
      const leg = rope.breakingLoad * valueAt(strains, column.leg, there);
      const out = answer.loads;
      out.peak = Math.hypot(H, held + hookWeight(height) + ropeWeight);
      out.ropeShare = leg / strengthInUse(rope, ends);
      out.workingLoadShare = weakest < Number.POSITIVE_INFINITY ? Math.hypot(H, held) / weakest : 0;
      out.hook = ropePull;
      out.cleat = leg;
      out.anchorAngle = Math.max(0, lower + part * (fromTable("angle", k, root) - lower));
      out.loopShare = 1 - ropePull / pull;
      answer.movement = xBefore + part * (span - xBefore) - x0;
      return "taken";
    }
    return "notTaken";
  };
  return { answer, solve };
}

/** Share of a step, 0 to 1, at which (H − Hₐ) − H₀ ln(H/Hₐ) reaches `wanted`: Newton, on a function that bends one way. */
function shareTaking(Ha: number, mean: number, wanted: number): number {
  let part = 1;
  for (let n = 0; n < 40; n++) {
    const H = Ha * Math.exp(part * STEP);
    const miss = H - Ha - mean * part * STEP - wanted;
    const next = Math.max(0, part - miss / (STEP * (H - mean)));
    if (!(Math.abs(next - part) > 1e-12)) break;
    part = next;
  }
  return part;
}

/** Straight between the points of a table, on with the last slope beyond. */
function valueAt(x: Float64Array, y: Float64Array, at: number): number {
  let i = 1;
  while (i < x.length - 1 && x[i]! < at) i++;
  return y[i - 1]! + ((at - x[i - 1]!) / (x[i]! - x[i - 1]!)) * (y[i]! - y[i - 1]!);
}

/** Tables by length of chain below the hook, longest first; one where every snubber leaves the same. */
function tablesFor(
  rig: Rig,
  top: number,
  kind: SnubberKind,
  forces: Float64Array,
  longest: number,
): { length: number; table: BelowHook }[] {
  const whole = (rig.rode[top] as LinePart).length;
  const most = kind.hooked === "veered" ? 0 : Math.min(longest, whole * (1 - 1e-3));
  const count = most === 0 ? 1 : CHAINS;
  return Array.from({ length: count }, (_, i) => {
    const length = whole - (most * i) / Math.max(1, count - 1);
    return { length, table: tabulate(rig, top, length, forces, HEIGHTS) };
  });
}
