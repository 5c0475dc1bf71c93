/** What the limits of a snubber are called, and how each side of the map is told apart without colour. */
import type { Dimension } from "../../quantity/index.ts";
import { REASONS, type Reason, type SnubberLimits } from "../../sizing/index.ts";

export interface ReasonSaid {
  /** In the map. */
  readonly short: string;
  /** In the list beside it. */
  readonly long: string;
  /** Strokes of its pattern in a tile of 10 by 10. */
  readonly pattern: string;
}

const said: Readonly<Record<string, ReasonSaid>> = {
  within: { short: "within all limits", long: "within all limits", pattern: "" },
  unriggable: {
    short: "cannot be rigged",
    long: "cannot be rigged, or finds no equilibrium",
    pattern: "M0 0L10 10M10 0L0 10M5 0V10",
  },
  noEquilibrium: { short: "cannot be rigged", long: "finds no equilibrium", pattern: "M0 0L10 10M10 0L0 10M5 0V10" },
  notTaken: {
    short: "surge not taken",
    long: "the surge is not taken at any load",
    pattern: "M0 3H10M0 8H10M3 0V10M8 0V10",
  },
  peak: { short: "peak too high", long: "peak load above its limit", pattern: "M-2 2L2-2M0 10L10 0M8 12L12 8" },
  rope: { short: "rope too weak", long: "rope beyond its share of strength", pattern: "M-2 8L2 12M0 0L10 10M8-2L12 2" },
  gear: {
    short: "chain or shackle too weak",
    long: "chain, shackle or swivel beyond its working load",
    pattern: "M0 5H10",
  },
  hook: { short: "hook too weak", long: "hook beyond its working load", pattern: "M4 5a1 1 0 1 0 2 0a1 1 0 1 0-2 0" },
  cleat: { short: "cleat too weak", long: "cleat beyond its working load", pattern: "M5 0V10" },
  anchorAngle: { short: "anchor lifted", long: "anchor pulled steeper than its limit", pattern: "M0 10L5 2L10 10" },
  loop: { short: "loop drawn straight", long: "the loop of chain takes more than its share", pattern: "M0 7Q5 0 10 7" },
};

export const reasonSaid = (reason: Reason): ReasonSaid => said[reason] ?? { short: reason, long: reason, pattern: "" };
export const reasonAt = (code: number): Reason => REASONS[code] ?? REASONS[0];

/** A limit of the place: its words, its dimension, where its slider runs. */
export interface LimitSaid {
  readonly name: keyof SnubberLimits;
  readonly label: string;
  readonly field: string;
  readonly dimension: Dimension;
  readonly usualUnit?: string;
  readonly least: number;
  readonly most: number;
  readonly usual: number;
}

export const limitsSaid: readonly LimitSaid[] = [
  { name: "peak", label: "Peak at the bow", field: "load", dimension: "force", least: 500, most: 40_000, usual: 5000 },
  {
    name: "ropeShare",
    label: "Rope, share of its strength in use",
    field: "share",
    dimension: "ratio",
    usualUnit: "%",
    least: 0.02,
    most: 1,
    usual: 0.2,
  },
  {
    name: "workingLoadShare",
    label: "Chain and shackles, share of working load",
    field: "share",
    dimension: "ratio",
    usualUnit: "%",
    least: 0.1,
    most: 2,
    usual: 1,
  },
  {
    name: "hook",
    label: "Working load of the hook",
    field: "load",
    dimension: "force",
    least: 500,
    most: 40_000,
    usual: 8000,
  },
  {
    name: "cleat",
    label: "Working load of a cleat",
    field: "load",
    dimension: "force",
    least: 500,
    most: 40_000,
    usual: 5000,
  },
  {
    name: "anchorAngle",
    label: "Pull above the bottom at the anchor",
    field: "angle",
    dimension: "angle",
    least: 0.5 * (Math.PI / 180),
    most: 30 * (Math.PI / 180),
    usual: 8 * (Math.PI / 180),
  },
  {
    name: "loopShare",
    label: "Loop of chain, share of the peak",
    field: "share",
    dimension: "ratio",
    usualUnit: "%",
    least: 0.01,
    most: 1,
    usual: 0.1,
  },
];
