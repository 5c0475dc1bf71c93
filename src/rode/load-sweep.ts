import { integrateAdaptively } from "../numeric/index.ts";
import { compile } from "./compile.ts";
import { endForcesOf } from "./end-forces.ts";
import { DX_DEXCESS, DX_DH, DZ_DEXCESS, DZ_DH } from "./march.ts";
import { inStillWater, type NoEquilibrium, type Pull, type Rig, type Settled } from "./model.ts";
import { settleTraced } from "./settle.ts";
import type { SettledTrace } from "./settled-trace.ts";
import { solve } from "./solve.ts";
import { SOLVED, STATED_HORIZONTAL, state } from "./solve-state.ts";

/** One row: the equilibrium at a load, and what it took to come there from the row before. */
export interface SweepRow {
  readonly settled: Settled;
  /** Movement of the loaded end away from the anchor since the row before, m; 0 on the first. */
  readonly movement: number;
  /** Work done at the loaded end since the row before, ∫ H dx, J; 0 on the first. */
  readonly work: number;
  /** Change of horizontal force per movement of the loaded end, N/m. */
  readonly stiffness: number;
}

/** A row, or why that load has no equilibrium. */
export type SweepRowOrNone = ({ readonly kind: "rung" } & SweepRow) | NoEquilibrium;

/**
 * Settles a rode at a series of loads. The work is integrated from force and movement, not read from the energies: where
 * nothing rubs the two agree, and what friction takes is their difference.
 *
 * @throws never for a checked rig; a load without an equilibrium gives its reason in place of a row
 */
export function loadSweep(rig: Rig, pulls: readonly Pull[]): SweepRowOrNone[] {
  return [...sweepRows(rig, pulls)];
}

/** As `loadSweep`, a row at a time: whoever has seen enough stops asking. */
export function* sweepRows(rig: Rig, pulls: readonly Pull[]): Generator<SweepRowOrNone> {
  const span = spanOf(rig);
  let before: (SettledTrace & { readonly stiffness: number }) | null = null;
  for (const pull of pulls) {
    const traced: SettledTrace | NoEquilibrium = settleTraced(rig, pull, before?.near);
    if (!("settled" in traced)) {
      yield traced;
      continue;
    }
    const { settled } = traced;
    const stiffness = stiffnessFrom(rig, settled, span);
    yield {
      kind: "rung",
      settled,
      movement: before === null ? 0 : settled.span - before.settled.span,
      work: before === null ? 0 : workBetween(rig, before, { settled, stiffness }, span),
      stiffness,
    };
    before = { ...traced, stiffness };
  }
}

/** Span under a horizontal force at the bow, m; NaN where there is none. */
type SpanOf = (horizontal: number) => number;

function spanOf(rig: Rig): SpanOf {
  const at = endForcesOf(rig);
  return (newtons) => at({ at: "horizontal", newtons })?.span ?? Number.NaN;
}

/** dH/dx of the loaded end, N/m; from the solver's own derivatives, or by difference where it has none. */
export function stiffnessAt(rig: Rig, settled: Settled): number {
  return stiffnessFrom(rig, settled, spanOf(rig));
}

function stiffnessFrom(rig: Rig, settled: Settled, span: SpanOf): number {
  const H = settled.horizontal;
  if (!(H > 0)) return 0;
  if (inStillWater(rig.setting)) {
    const rode = compile(rig);
    if (!rode.hasBuoyant && solve(rode, STATED_HORIZONTAL, H) === SOLVED) {
      const give = state[DX_DH]! - (state[DX_DEXCESS]! * state[DZ_DH]!) / state[DZ_DEXCESS]!;
      return 1 / give;
    }
  }
  const h = 1e-4 * H;
  return (2 * h) / (span(H + h) - span(H - h));
}

/** Relative accuracy asked of the work's integral: beyond what any reading can tell, within what doubles give. */
const WORK_ACCURACY = 1e-10;
/** Where a rode is stepped along, reading after reading is near enough: a correction that small leaves less than a millionth. */
const DENSE = 3e-4;

/**
 * ∫ H dx = [H x] − ∫ x dH, the second by adaptive Simpson halves in ln H, since x runs as a smooth function of it
 * but for kinks where the rode leaves the bottom or a stretch law bends. Between close rows of a rode that is stepped along
 * the trapezium with its slopes, ½ h (x₁ + x₂) + h²/12 (1/k₁ − 1/k₂), which asks for no further equilibrium.
 */
function workBetween(
  rig: Rig,
  { settled: from, stiffness: k1 }: Pick<SweepRow, "settled" | "stiffness">,
  { settled: to, stiffness: k2 }: Pick<SweepRow, "settled" | "stiffness">,
  span: SpanOf,
): number {
  const a = from.horizontal;
  const b = to.horizontal;
  if (a <= 0 || b <= 0) return 0.5 * (a + b) * (to.span - from.span);
  // About the mean span, so that the large equal terms do not cancel.
  const middle = 0.5 * (from.span + to.span);
  const excess = (u: number): number => {
    const H = Math.exp(u);
    return (span(H) - middle) * H;
  };
  const still = inStillWater(rig.setting);
  const scale = Math.abs(b - a) * Math.abs(to.span - from.span) + 1e-300;
  const bent = ((b - a) ** 2 / 12) * (1 / k1 - 1 / k2);
  // Excess over the mean span: the trapezium itself leaves nothing.
  if (!still && Math.abs(bent) <= DENSE * scale) return 0.5 * (a + b) * (to.span - from.span) - bent;
  const accuracy = (still ? WORK_ACCURACY : 1e-6) * scale;
  const [fa, fb] = [(from.span - middle) * a, (to.span - middle) * b];
  const integral = integrateAdaptively(excess, Math.log(a), Math.log(b), accuracy, still ? 22 : 5, fa, fb);
  return b * (to.span - middle) - a * (from.span - middle) - integral;
}
