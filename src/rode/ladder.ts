import { compile } from "./compile.ts";
import { GIVEN_HORIZONTAL, SOLVED, state } from "./given.ts";
import { integrate } from "./integrate.ts";
import { DX_DH, DX_DLIFT, DZ_DH, DZ_DLIFT } from "./march.ts";
import type { NoEquilibrium, Pull, Rig, Settled } from "./model.ts";
import { settle } from "./settle.ts";
import { solve } from "./solve.ts";

/** One rung: the equilibrium at a load, and what it took to come there from the rung before. */
export interface Rung {
  readonly settled: Settled;
  /** Movement of the loaded end away from the anchor since the rung before, m; 0 on the first. */
  readonly movement: number;
  /** Work done at the loaded end since the rung before, ∫ H dx, J; 0 on the first. */
  readonly work: number;
  /** Change of horizontal force per movement of the loaded end, N/m. */
  readonly stiffness: number;
}

/** A rung, or why that load has no equilibrium. */
export type RungOrNone = ({ readonly kind: "rung" } & Rung) | NoEquilibrium;

/**
 * Settles a rode at a series of loads. The work is integrated from force and movement, not read from the energies: where
 * nothing rubs the two agree, and what friction takes is their difference.
 *
 * @throws never for a checked rig; a load without an equilibrium gives its reason in place of a rung
 */
export function ladder(rig: Rig, pulls: readonly Pull[]): RungOrNone[] {
  const rungs: RungOrNone[] = [];
  let before: Settled | null = null;
  for (const pull of pulls) {
    const settled = settle(rig, pull);
    if (settled.kind === "noEquilibrium") {
      rungs.push(settled);
      continue;
    }
    rungs.push({
      kind: "rung",
      settled,
      movement: before === null ? 0 : settled.span - before.span,
      work: before === null ? 0 : workBetween(rig, before, settled),
      stiffness: stiffnessAt(rig, settled),
    });
    before = settled;
  }
  return rungs;
}

/** dH/dx of the loaded end, N/m; from the solver's own derivatives, or by difference where it has none. */
export function stiffnessAt(rig: Rig, settled: Settled): number {
  const still = rig.setting.medium === "air" || rig.setting.current === 0;
  const H = settled.horizontal;
  if (!(H > 0)) return 0;
  if (still) {
    const rode = compile(rig);
    if (!rode.hasBuoyant && solve(rode, GIVEN_HORIZONTAL, H) === SOLVED) {
      const give = state[DX_DH]! - (state[DX_DLIFT]! * state[DZ_DH]!) / state[DZ_DLIFT]!;
      return 1 / give;
    }
  }
  const h = 1e-4 * H;
  const more = spanAt(rig, H + h);
  const less = spanAt(rig, H - h);
  return (2 * h) / (more - less);
}

function spanAt(rig: Rig, horizontal: number): number {
  const settled = settle(rig, { at: "horizontal", newtons: horizontal });
  return settled.kind === "settled" ? settled.span : Number.NaN;
}

/** Relative accuracy asked of the work's integral: beyond what any reading can tell, within what doubles give. */
const WORK_ACCURACY = 1e-10;

/**
 * ∫ H dx = [H x] − ∫ x dH, the second by adaptive Simpson halves in ln H, since x runs as a smooth function of it
 * but for kinks where the rode leaves the bottom or a stretch law bends.
 */
function workBetween(rig: Rig, from: Settled, to: Settled): number {
  const a = from.horizontal;
  const b = to.horizontal;
  if (a <= 0 || b <= 0) return 0.5 * (a + b) * (to.span - from.span);
  // About the mean span, so that the large equal terms do not cancel.
  const middle = 0.5 * (from.span + to.span);
  const excess = (u: number): number => {
    const H = Math.exp(u);
    return (spanAt(rig, H) - middle) * H;
  };
  const still = rig.setting.medium === "air" || rig.setting.current === 0;
  const scale = Math.abs(b - a) * Math.abs(to.span - from.span) + 1e-300;
  const accuracy = (still ? WORK_ACCURACY : 1e-6) * scale;
  const integral = integrate(excess, Math.log(a), Math.log(b), accuracy, still ? 22 : 5);
  return b * (to.span - middle) - a * (from.span - middle) - integral;
}
