/**
 * A map of snubbers over length and diameter, fast enough to redraw while something is dragged.
 *
 * The rode below the hook comes from a table (below-hook.ts); the rope above it is taken as straight, at the slope its middle
 * has, so that a cell closes one equation at each of a ladder of forces: height of the hook + climb of the rope = rise. With
 * span straight in ln H between the rungs, the energy taken beyond the steady force,
 *
 *     ∫ (H − H₀) dx = dx/d ln H · [(Hᵇ − Hᵃ) − H₀ ln(Hᵇ/Hᵃ)]   on each step,
 *
 * is added up until it is the boat's, or that share of it which the rode in motion leaves: the share comes from runs in time
 * at a few places of the map (surge-share.ts). Against `trySnubber`, which runs every one, peaks agree to some 5 % (a test).
 */
import type { Catalogue } from "../gear/index.ts";
import { type LinePart, type NoEquilibrium, type Rig, type StretchLaw, settle } from "../rode/index.ts";
import { canTabulate } from "./below-hook.ts";
import { judge, REASONS, type RopeEnds, type SnubberLimits, type SnubberLoads } from "./limits.ts";
import { type Rope, ropesOf } from "./rope-choice.ts";
import type { SteadyLoad, Surge } from "./snatch.ts";
import { spansBeam, topLine } from "./snubber.ts";
import { cellSolver } from "./snubber-cell.ts";
import { columnOf, type SnubberColumn, type SnubberKind, unitLaw } from "./snubber-column.ts";
import { surgeShares } from "./surge-share.ts";
import { trySnubber } from "./try-snubber.ts";

/** Lengths and diameters to be tried, under which loads and limits. */
export interface MapQuestion {
  readonly rig: Rig;
  readonly load: SteadyLoad;
  readonly surge: Surge;
  readonly rope: { readonly fibre: string; readonly lay: string };
  readonly kind: SnubberKind;
  readonly ends: RopeEnds;
  readonly limits: SnubberLimits;
  /** m, rising; of each leg of a bridle. */
  readonly lengths: ArrayLike<number>;
  /** m, rising. */
  readonly diameters: ArrayLike<number>;
}

/** One number a cell, diameter by diameter: [diameter × lengths + length]; NaN where there is none. */
export interface SnubberMap {
  readonly kind: "map";
  readonly lengths: Float64Array;
  readonly diameters: Float64Array;
  /** Code into REASONS of the limit passed by most; 0: within all. */
  readonly reason: Uint8Array;
  /** Every limit passed: bit n − 1 for REASONS[n]. */
  readonly mask: Uint16Array;
  /** At the bow at the peak, N. */
  readonly peak: Float64Array;
  readonly ropeShare: Float64Array;
  readonly workingLoadShare: Float64Array;
  readonly cleat: Float64Array;
  readonly anchorAngle: Float64Array;
  readonly loopShare: Float64Array;
  /** From the steady load to the peak, m. */
  readonly movement: Float64Array;
  /** Whether cells were settled one by one, as a current, a slope or a float asks for: exact, and slow. */
  readonly oneByOne: boolean;
}

/**
 * @returns 1200 cells in some 50 ms (docs/shock.md); or why the steady load has no equilibrium
 * @throws InputError when the catalogue has no such rope
 */
export function snubberMap(question: MapQuestion, catalogue: Catalogue, place = "rope"): SnubberMap | NoEquilibrium {
  const { rig, load, kind, limits, ends } = question;
  const bare = settle(rig, load);
  if (bare.kind === "noEquilibrium") return bare;
  const ropes = ropesOf(question.rope, question.diameters, catalogue, place);
  const top = topLine(rig);
  if (top === null || !canTabulate(rig)) return oneByOne(question, ropes);
  const map = emptyMap(question, false);
  const chain = rig.rode[top] as LinePart;
  const units = ropes.map((rope) => unitLaw(rope.stretch, rope.breakingLoad));
  const longest = Math.max(...map.lengths) + (kind.slack ?? 0);
  const solver = cellSolver(rig, top, kind, question.surge, bare.horizontal, longest);
  const { loads } = solver.answer;
  // Sizes of one fibre and lay mostly share their curve, and then the column.
  const columns = new Map<number, { column: SnubberColumn; of: StretchLaw }>();
  const columnAt = (i: number, j: number): SnubberColumn => {
    const known = columns.get(i);
    if (known !== undefined && sameLaw(known.of, units[j]!)) return known.column;
    const column = columnOf(rig, chain, kind, units[j]!, map.lengths[i]!);
    columns.set(i, { column, of: units[j]! });
    return column;
  };
  const shareAt = surgeShares(question, bare.horizontal, ropes, (i, j, share) =>
    solver.solve(ropes[j]!, columnAt(i, j), ends, share) === "taken" ? loads.peak : null,
  );
  map.lengths.forEach((length, i) => {
    ropes.forEach((rope, j) => {
      const cell = j * map.lengths.length + i;
      const end = spansBeam(kind, length) ? solver.solve(rope, columnAt(i, j), ends, shareAt(i, j)) : "unriggable";
      if (end === "taken") write(map, cell, loads, limits, solver.answer.movement);
      else fail(map, cell, end);
    });
  });
  return map;
}

function sameLaw(a: StretchLaw, b: StretchLaw): boolean {
  if (a.kind !== "curve" || b.kind !== "curve") return a === b;
  return (
    a.points.length === b.points.length &&
    a.points.every(([strain, load], i) => {
      const [strainThere, loadThere] = b.points[i]!;
      return Math.abs(strain - strainThere) < 1e-9 && Math.abs(load - loadThere) < 1e-9;
    })
  );
}

function emptyMap({ lengths, diameters }: MapQuestion, slow: boolean): SnubberMap {
  const cells = lengths.length * diameters.length;
  const numbers = () => new Float64Array(cells).fill(Number.NaN);
  return {
    kind: "map",
    lengths: Float64Array.from(lengths),
    diameters: Float64Array.from(diameters),
    reason: new Uint8Array(cells),
    mask: new Uint16Array(cells),
    peak: numbers(),
    ropeShare: numbers(),
    workingLoadShare: numbers(),
    cleat: numbers(),
    anchorAngle: numbers(),
    loopShare: numbers(),
    movement: numbers(),
    oneByOne: slow,
  };
}

function write(map: SnubberMap, cell: number, loads: SnubberLoads, limits: SnubberLimits, movement: number): void {
  const { reason, mask } = judge(loads, limits);
  map.reason[cell] = REASONS.indexOf(reason);
  map.mask[cell] = mask;
  map.peak[cell] = loads.peak;
  map.ropeShare[cell] = loads.ropeShare;
  map.workingLoadShare[cell] = loads.workingLoadShare;
  map.cleat[cell] = loads.cleat;
  map.anchorAngle[cell] = loads.anchorAngle;
  map.loopShare[cell] = loads.loopShare;
  map.movement[cell] = movement;
}

function fail(map: SnubberMap, cell: number, reason: "unriggable" | "notTaken"): void {
  const code = REASONS.indexOf(reason);
  map.reason[cell] = code;
  map.mask[cell] = 1 << (code - 1);
}

function oneByOne(question: MapQuestion, ropes: readonly Rope[]): SnubberMap {
  const map = emptyMap(question, true);
  const { rig, load, surge, kind, limits, ends } = question;
  ropes.forEach((rope, j) => {
    map.lengths.forEach((length, i) => {
      const cell = j * map.lengths.length + i;
      const tried = trySnubber(rig, load, surge, { ...kind, rope, length }, limits, ends);
      if (tried.kind === "tried") write(map, cell, tried.loads, limits, tried.snatch.give.movement);
      else fail(map, cell, tried.kind === "notTaken" ? "notTaken" : "unriggable");
    });
  });
  return map;
}
