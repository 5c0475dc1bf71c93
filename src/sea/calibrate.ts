/**
 * The laws of load over wind that a boat's own measured points give.
 *
 * Points read at different ends of a rode differ by the weight that hangs between: each end is fitted for itself.
 */
import type { Boat, LoadEnd, MeasuredPoint } from "./boat.ts";
import { fitLaw, type LoadLaw, type LogPoint } from "./load-law.ts";
import { OPEN_WATER, toReferenceHeight, type WindProfile } from "./wind-profile.ts";

/** Relative standard uncertainties of a point whose file states none: assumed, and said so. */
export const ASSUMED_POINT = { load: 0.1, wind: 0.1 } as const;
/** Standard uncertainty of the square law's exponent where the boat file states none: assumed, no source. */
export const ASSUMED_EXPONENT_U = 0.1;

/** The laws of one end: of mean loads, and of brief peaks where points carry them. */
export interface Calibration {
  readonly at: LoadEnd;
  readonly points: readonly MeasuredPoint[];
  readonly mean: LoadLaw;
  readonly peak?: LoadLaw;
  /** Which uncertainties no file stated. */
  readonly assumed: readonly ("load" | "wind" | "peak" | "exponent")[];
}

/** The calibrations of a boat's measured points, one an end, the end with most points first; empty without points. */
export function calibrate(boat: Boat, profile: WindProfile = OPEN_WATER): readonly Calibration[] {
  const ends: readonly LoadEnd[] = ["horizontal", "bow", "anchor"];
  return ends
    .map((at) => ({ at, points: boat.measured.filter((point) => point.at === at) }))
    .filter(({ points }) => points.length > 0)
    .sort((a, b) => b.points.length - a.points.length)
    .map(({ at, points }) => calibrateEnd(at, points, boat.uncertainty.exponent, profile));
}

function calibrateEnd(
  at: LoadEnd,
  points: readonly MeasuredPoint[],
  exponentU: number | undefined,
  profile: WindProfile,
): Calibration {
  const winds = points.map((p) => windAt10m(p, profile));
  const windU = points.map((p) =>
    p.uncertainty.wind === undefined ? ASSUMED_POINT.wind : p.uncertainty.wind / p.wind,
  );
  const squareU = exponentU ?? ASSUMED_EXPONENT_U;
  const means = points.map((p, i): LogPoint => logPoint(winds[i]!, windU[i]!, p.load, p.uncertainty.load));
  const peaks = points.flatMap((p, i) =>
    p.peak === undefined ? [] : [logPoint(winds[i]!, windU[i]!, p.peak, p.uncertainty.peak)],
  );
  const mean = fitLaw(means, squareU);
  const assumed = new Set<"load" | "wind" | "peak" | "exponent">();
  for (const p of points) {
    if (p.uncertainty.load === undefined) assumed.add("load");
    if (p.uncertainty.wind === undefined) assumed.add("wind");
    if (p.peak !== undefined && p.uncertainty.peak === undefined) assumed.add("peak");
  }
  if (exponentU === undefined && mean.exponentFrom === "square law") assumed.add("exponent");
  return { at, points, mean, ...(peaks.length === 0 ? {} : { peak: fitLaw(peaks, squareU) }), assumed: [...assumed] };
}

function logPoint(wind: number, windU: number, load: number, loadU: number | undefined): LogPoint {
  return { wind, level: Math.log(load), windU, loadU: loadU === undefined ? ASSUMED_POINT.load : loadU / load };
}

/** A point's wind at 10 m, m/s. */
export function windAt10m({ wind, windHeight }: MeasuredPoint, profile: WindProfile): number {
  return windHeight === undefined ? wind : toReferenceHeight(profile, wind, windHeight);
}
