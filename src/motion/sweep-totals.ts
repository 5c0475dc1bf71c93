/**
 * What many rides say of each case (rig, boat, weather): kept as running sums, so that memory does not grow with the rides.
 * The mean of the largest loads with its ± is over independent drawings of gusts and waves.
 */
import type { SweepRow } from "./sweep-row.ts";

/** What the rides of one rig, boat and weather came to together. */
export interface CaseTotals {
  readonly rig: string;
  readonly boat: string;
  readonly weather: string;
  rides: number;
  /** Rides without numbers: no equilibrium, or broken off at once. */
  without: number;
  brokeOff: number;
  readonly bowMean: Running;
  /** Largest load of each ride. */
  readonly bowLargest: Running;
  readonly anchorLargest: Running;
  /** Angle at the anchor at the largest load there, degrees. */
  readonly angleAtLargest: Running;
  readonly liftedShare: Running;
  readonly bowOverStill: Running;
  readonly highestOfWorkingLoad: Running;
}

/** A mean and its scatter, kept as values come. */
export interface Running {
  count: number;
  mean: number;
  /** Sum of squares about the mean (Welford 1962, Technometrics 4, 419; recalled). */
  squares: number;
  largest: number;
}

const running = (): Running => ({ count: 0, mean: 0, squares: 0, largest: Number.NEGATIVE_INFINITY });

function add(into: Running, value: number | string | null | undefined): void {
  if (typeof value !== "number") return;
  into.count++;
  const off = value - into.mean;
  into.mean += off / into.count;
  into.squares += off * (value - into.mean);
  if (value > into.largest) into.largest = value;
}

/** Scatter from ride to ride; null for fewer than two. */
export const deviationOf = (r: Running): number | null => (r.count < 2 ? null : Math.sqrt(r.squares / (r.count - 1)));

/** Standard uncertainty of the mean; null for fewer than two rides. */
export const uncertaintyOf = (r: Running): number | null =>
  r.count < 2 ? null : Math.sqrt(r.squares / (r.count - 1) / r.count);

/** Sums by case, in the order in which they are first met. */
export function sweepTotals(): { readonly add: (row: SweepRow) => void; readonly cases: () => readonly CaseTotals[] } {
  const all = new Map<string, CaseTotals>();
  return {
    add(row) {
      const key = JSON.stringify([row.rig, row.boat, row.weather]);
      let one = all.get(key);
      if (one === undefined) {
        one = {
          rig: String(row.rig),
          boat: String(row.boat),
          weather: String(row.weather),
          rides: 0,
          without: 0,
          brokeOff: 0,
          bowMean: running(),
          bowLargest: running(),
          anchorLargest: running(),
          angleAtLargest: running(),
          liftedShare: running(),
          bowOverStill: running(),
          highestOfWorkingLoad: running(),
        };
        all.set(key, one);
      }
      one.rides++;
      if (row.bow_mean_N === null) one.without++;
      if (row.outcome === "brokeOff") one.brokeOff++;
      add(one.bowMean, row.bow_mean_N);
      add(one.bowLargest, row.bow_largest_N);
      add(one.anchorLargest, row.anchor_largest_N);
      add(one.angleAtLargest, row.anchorAngle_atLargestLoad_deg);
      add(one.liftedShare, row.liftedShare);
      add(one.bowOverStill, row.bowOverStill);
      add(one.highestOfWorkingLoad, row.highestOfWorkingLoad);
    },
    cases: () => [...all.values()],
  };
}
