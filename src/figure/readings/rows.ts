/** A run and its reduction as the figures of readings need them. */
import type { Reduction, Run, TheoryPoint } from "../../pull/index.ts";
import type { UnitSystem } from "../../quantity/index.ts";

/** A run and its reduction as the figures of readings take them. */
export interface ReadingsFigure {
  readonly run: Run;
  readonly reduced: Reduction;
  /** The fitted theory at loads close enough to draw a curve through. */
  readonly curve: readonly TheoryPoint[];
  /** What the rig hangs in: on land the bow is the upper end. */
  readonly medium?: "air" | "water";
  readonly units?: UnitSystem;
  /** px; 680 without */
  readonly width?: number;
  readonly alone?: boolean;
}

/** Loads to ask the theory at for a curve over a run's own loads: from none to past the highest, the lift-off among them. */
export function curveLoads(run: Run, reduced: Reduction, count = 120): number[] {
  const loads = [...run.readings, ...run.release].map((row) => row.load);
  const highest = 1.04 * Math.max(...loads);
  const lowest = Math.min(...loads);
  const from = lowest < 0.5 * highest ? 0.02 * highest : 0.9 * lowest;
  const even = Array.from({ length: count }, (_, i) => from + ((highest - from) * i) / (count - 1));
  const corner =
    reduced.liftoff !== null && reduced.liftoff > from && reduced.liftoff < highest ? [reduced.liftoff] : [];
  return [...even, ...corner].sort((a, b) => a - b);
}

/** How an end is called. */
export function endName(at: "anchor" | "bow", medium: "air" | "water" = "air"): string {
  if (medium === "water") return at;
  return at === "anchor" ? "anchor end" : "upper end";
}

/** Whether a drawing of these loads should begin at zero. */
export function fromZero(run: Run): boolean {
  const loads = [...run.readings, ...run.release].map((row) => row.load);
  return Math.min(...loads) < 0.5 * 1.04 * Math.max(...loads);
}
