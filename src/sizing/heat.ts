/**
 * Heat in a cycled rope: each stretch gives back less than was put in; the rest warms the rope.
 *
 *     heat per cycle  Q = ψ (U_peak − U_mean)         ψ: loss share of the energy of a stretch
 *     one cycle, no heat let out        ΔT = Q / (m c)
 *     going on for ever, P = Q/period   surface ΔT = P / (h π d L),  core above surface = P / (4 π k L)
 *
 * an evenly warmed cylinder (Carslaw & Jaeger; recalled). An estimate to show which ropes run hot, not a temperature.
 */
import { facts } from "./facts.gen.ts";
import type { Fact } from "./read-facts.ts";
import type { Rope } from "./rope-choice.ts";

/** How warm a rope becomes by cycles. */
export interface RopeHeat {
  /** J per cycle and standard uncertainty. */
  readonly perCycle: { readonly value: number; readonly u: number };
  /** K, if a cycle's heat stayed in the rope. */
  readonly risePerCycle: { readonly value: number; readonly u: number };
  /** K in the middle of the rope after long cycling; only with a period. */
  readonly steadyCore?: { readonly value: number; readonly u: number };
}

/** Figures of a fibre; those of polyamide for one that has none of its own. */
export function factOf(figures: Readonly<Record<string, Fact>>, fibre: string): Fact {
  return figures[fibre] ?? figures.polyamide!;
}

/**
 * @param stored energy put into the rope from the mean load to the peak, J
 * @param length of all the rope warmed, m
 * @param period of a cycle, s; without: one cycle only
 */
export function ropeHeat(rope: Rope, length: number, stored: number, period?: number): RopeHeat {
  const { rope: figures } = facts;
  const loss = factOf(figures.loss, rope.fibre);
  const c = factOf(figures.specificHeat, rope.fibre);
  const { film, conductivity } = figures;
  const heat = loss.value * stored;
  const heatU = loss.u / loss.value;
  const rise = heat / (rope.massPerLength * length * c.value);
  const perCycle = { value: heat, u: heat * heatU };
  const risePerCycle = { value: rise, u: rise * Math.hypot(heatU, c.u / c.value) };
  if (period === undefined) return { perCycle, risePerCycle };
  const perMetre = heat / period / length;
  const surface = perMetre / (film.value * Math.PI * rope.diameter);
  const core = perMetre / (4 * Math.PI * conductivity.value);
  const apart = Math.hypot((surface * film.u) / film.value, (core * conductivity.u) / conductivity.value);
  return {
    perCycle,
    risePerCycle,
    steadyCore: { value: surface + core, u: Math.hypot(apart, (surface + core) * heatU) },
  };
}
