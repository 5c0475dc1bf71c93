/**
 * Where the give of a rode comes from, part by part.
 *
 * Where nothing rubs, the work done at the bow is stored in the parts: H dx = Σ dUᵢ, each Uᵢ the energy of one part against
 * its weight or in its stretch. So the movement itself divides, exactly and by the same rule for chain, rope and kellet:
 *
 *     dxᵢ = dUᵢ / H,     xᵢ = ∫ dUᵢ / H = [Uᵢ/H] + ∫ Uᵢ/H d(ln H)
 *
 * the last by adaptive Simpson in ln H, the energies being closed forms of the settled rode. A rope drawn out by dl at the
 * angle θ comes out as dl/cos θ, as geometry has it. What ground friction or current take is in no part: it is what is left.
 */
import { integrateCurve } from "../numeric/index.ts";
import {
  inStillWater,
  type LinePart,
  loadSweep,
  type NoEquilibrium,
  type Rig,
  type Settled,
  settleTraced,
} from "../rode/index.ts";

/** Movement of the bow, m, and energy, J, that come from one thing. */
export interface Amount {
  readonly movement: number;
  readonly energy: number;
}

/** The give of one part, by lifting and by stretching. */
export interface PartGive {
  /** Counted from the anchor, 0 first. */
  readonly part: number;
  readonly name: string;
  readonly kind: "line" | "point";
  readonly material?: NonNullable<LinePart["material"]>;
  /** By its weight being raised (or a float being drawn under). */
  readonly lift: Amount;
  readonly stretch: Amount;
}

/** The give of a rode between two loads. */
export interface Give {
  readonly kind: "give";
  readonly from: Settled;
  readonly to: Settled;
  /** Movement of the bow away from the anchor, m, and the work done there, J: those of `ladder`. */
  readonly movement: number;
  readonly work: number;
  readonly parts: readonly PartGive[];
  /** What no part stores: friction on the bottom and the current's drag. */
  readonly rest: Amount;
  readonly shares: GiveShares;
}

/** The same, gathered by how the give comes about. */
export interface GiveShares {
  /** Chain, wire and rope raised: what the trade calls catenary. */
  readonly lifting: Amount;
  /** Kellets, shackles, swivels and floats. */
  readonly kellet: Amount;
  readonly stretchingRope: Amount;
  /** Stretch of whatever is not rope. */
  readonly stretchingChain: Amount;
  readonly rest: Amount;
}

/** Relative closeness asked of the movement: what doubles give in still water, what is worth waiting for in a current. */
const CLOSE = 1e-10;
const CLOSE_IN_CURRENT = 1e-5;

/**
 * The give between two horizontal forces at the bow, N, part by part.
 * @returns movements to 1e-8 of the whole in still water (tested against `ladder`), or why one end has no equilibrium
 */
export function giveBetween(rig: Rig, from: number, to: number): Give | NoEquilibrium {
  const start = stateAt(rig, from);
  if (!("energies" in start)) return start;
  const end = stateAt(rig, to);
  if (!("energies" in end)) return end;
  const rungs = loadSweep(rig, [
    { at: "horizontal", newtons: from },
    { at: "horizontal", newtons: to },
  ]);
  const last = rungs[1]!;
  if (last.kind === "noEquilibrium") return last;
  const movements = movementsBetween(rig, from, start.energies, to, end.energies);
  const count = rig.rode.length;
  const parts = rig.rode.map(
    (part, i): PartGive => ({
      part: i,
      name: part.name,
      kind: part.kind,
      ...(part.kind === "line" && part.material !== undefined ? { material: part.material } : {}),
      lift: { movement: movements[i]!, energy: end.energies[i]! - start.energies[i]! },
      stretch: { movement: movements[count + i]!, energy: end.energies[count + i]! - start.energies[count + i]! },
    }),
  );
  const stored = sum(parts.flatMap((part) => [part.lift, part.stretch]));
  const rest = { movement: last.movement - stored.movement, energy: last.work - stored.energy };
  return {
    kind: "give",
    from: start.settled,
    to: end.settled,
    movement: last.movement,
    work: last.work,
    parts,
    rest,
    shares: sharesOf(parts, rest),
  };
}

function sharesOf(parts: readonly PartGive[], rest: Amount): GiveShares {
  const lines = parts.filter((part) => part.kind === "line");
  return {
    lifting: sum(lines.map((part) => part.lift)),
    kellet: sum(parts.filter((part) => part.kind === "point").map((part) => part.lift)),
    stretchingRope: sum(lines.filter(isRope).map((part) => part.stretch)),
    stretchingChain: sum(lines.filter((part) => !isRope(part)).map((part) => part.stretch)),
    rest,
  };
}

/** A line of no stated material counts as rope: chain and wire come from the catalogue or say so. */
function isRope(part: PartGive): boolean {
  return part.material !== "chain" && part.material !== "wire";
}

function sum(amounts: readonly Amount[]): Amount {
  return amounts.reduce((all, one) => ({ movement: all.movement + one.movement, energy: all.energy + one.energy }), {
    movement: 0,
    energy: 0,
  });
}

interface State {
  readonly settled: Settled;
  /** Energy against weight of each part, then energy in stretch of each part, J. */
  readonly energies: Float64Array;
}

/** A settled rode with its energies by part. */
export function stateAt(rig: Rig, horizontal: number): State | NoEquilibrium {
  const traced = settleTraced(rig, { at: "horizontal", newtons: horizontal });
  if (!("settled" in traced)) return traced;
  const { settled, rode, integrals } = traced;
  const { byPart } = integrals;
  const energies = new Float64Array(2 * rode.count);
  energies.set(byPart.lift, 0);
  energies.set(byPart.strain, rode.count);
  return { settled, energies };
}

/** ∫ dUᵢ/H of every energy between two states. */
function movementsBetween(rig: Rig, from: number, U0: Float64Array, to: number, U1: Float64Array): Float64Array {
  const n = U0.length;
  const [a, b] = [Math.log(from), Math.log(to)];
  // About the first state, so that large equal terms do not cancel.
  const over = (U: Float64Array, u: number): Float64Array => {
    const H = Math.exp(u);
    return U.map((value, i) => (value - U0[i]!) / H);
  };
  const between = (u: number): Float64Array => {
    const state = stateAt(rig, Math.exp(u));
    return "energies" in state ? over(state.energies, u) : new Float64Array(n).fill(Number.NaN);
  };
  const whole = U1.reduce((most, value, i) => Math.max(most, Math.abs(value - U0[i]!)), 0) / Math.min(from, to);
  const still = inStillWater(rig.setting);
  const tolerance = (still ? CLOSE : CLOSE_IN_CURRENT) * (whole + 1e-300);
  const ends = over(U1, b);
  const integral = integrateCurve(between, a, b, tolerance, still ? 20 : 5, new Float64Array(n), ends);
  return ends.map((value, i) => value + integral[i]!);
}
