/**
 * A figure of the trade and where it comes from. Published figures differ; every one known is kept, the first is the
 * one used, and the rest say how far it can be trusted.
 */

/** How a figure was come by. `stated`: written in a user's own file without more. */
export type Basis = "seen" | "computed" | "recalled" | "stated" | "measured";

/** Where figures come from, as it is cited. */
export interface Source {
  /** Title, edition, table. */
  readonly cite: string;
  readonly address?: string;
  readonly note?: string;
}

/** One figure of a row: its value in SI, its source, and how it was come by. */
export interface Figure {
  /** SI. */
  readonly value: number;
  readonly basis: Basis;
  /** A key into the catalogue's sources. */
  readonly source: string;
  /** Half width of the range in which the true value is thought to lie, relative to the value. */
  readonly spread?: number;
  readonly note?: string;
}

/**
 * Half widths where a figure states none: rolling tolerance and rounding for one that was read in its source, model
 * error for a computed one, memory for a recalled one. Judgement, not measurement: see docs/gear.md.
 */
const ASSUMED_SPREAD: Readonly<Record<Basis, number>> = {
  seen: 0.03,
  stated: 0.03,
  measured: 0.01,
  computed: 0.05,
  recalled: 0.1,
};

/**
 * Half width of the first figure, relative: its own, or the distance of the figure that differs most, if larger. One
 * that was measured on the gear itself stands on its own: what a table says of other gear does not make it less sure.
 */
export function spreadOf(figures: readonly Figure[]): number {
  const used = figures[0]!;
  let half = used.spread ?? ASSUMED_SPREAD[used.basis];
  if (used.basis === "measured") return half;
  for (const figure of figures) half = Math.max(half, Math.abs(figure.value / used.value - 1));
  return half;
}

/**
 * Relative standard uncertainty of the first figure: its half width as a rectangular distribution.
 * @source JCGM 100:2008, 4.3.7 (u = a / √3).
 */
export function relativeUncertainty(figures: readonly Figure[]): number {
  return spreadOf(figures) / Math.sqrt(3);
}
