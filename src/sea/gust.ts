/**
 * Mean wind to gust: the largest mean over a short time t to be expected within the averaging time T.
 *
 * Frøya states it directly, U(z, t) = U(z) (1 − 0.41 I_u ln(t/3600)). For a spectrum the gust follows from the variance
 * that a mean over t leaves of it and from the largest of many (Davenport):
 *   σ_t² = ∫ S sin²(πft)/(πft)² df from 1/T on,  ν² = ∫ f² … / σ_t²,  g = √(2 ln νT) + γ/√(2 ln νT),
 *   gust = V + g σ_t.
 * The spectra carry no stated uncertainty; how far they lie apart is the honest measure of it.
 */

import { brent, integrate, integrateOverDecades } from "../numeric/index.ts";
import { EULER } from "./fluids.ts";
import {
  kaimalDeviation,
  type TurbulenceClass,
  type WindSpectrum,
  windDensity,
  windVariance,
} from "./wind-spectrum.ts";

/** A published model of gusts. */
export type GustModel =
  | { readonly kind: "froya" }
  | { readonly kind: "kaimal"; readonly turbulence: TurbulenceClass }
  | { readonly kind: "ochi-shin" };

/** A gust as its model has it: speed, and how far above the mean. */
export interface Gust {
  readonly model: GustModel;
  /** Gust over mean wind, 1. */
  readonly factor: number;
  /** Mean over `duration` of the gust, m/s at the height asked for. */
  readonly speed: number;
  /** Standard deviation of the wind as the model has it, over mean wind, 1. */
  readonly intensity: number;
}

/** What a gust is asked of: the mean wind (m/s) at `height` (m) over `averaging` (s), and the length of the gust (s). */
export interface GustQuestion {
  readonly wind: number;
  readonly height: number;
  readonly averaging: number;
  readonly duration: number;
}

/** The gust of a mean wind by one model. `duration` ≤ `averaging` ≤ 3600 s. */
export function gust(model: GustModel, question: GustQuestion): Gust {
  const { wind, height, averaging, duration } = question;
  if (model.kind === "froya") {
    const hour = froyaHourMean(wind, height, averaging);
    const speed = froyaWind(hour, height, duration);
    return { model, factor: speed / wind, speed, intensity: froyaIntensity(hour, height) };
  }
  const spectrum: WindSpectrum =
    model.kind === "kaimal"
      ? { kind: "kaimal", wind, height, turbulence: model.turbulence }
      : { kind: "ochi-shin", wind };
  const { deviation, peak } = filteredPeak(spectrum, averaging, duration);
  const intensity =
    model.kind === "kaimal"
      ? kaimalDeviation(wind, model.turbulence) / wind
      : Math.sqrt(windVariance(spectrum, 1 / averaging, 10)) / wind;
  return { model, factor: 1 + (peak * deviation) / wind, speed: wind + peak * deviation, intensity };
}

/** I_u = 0.06 (1 + 0.043 U₀) (z/10)^−0.22, U₀ the 1 h mean at 10 m. @source NPD / Frøya (seen in public code) */
export function froyaIntensity(hourMean: number, height: number): number {
  return 0.06 * (1 + 0.043 * hourMean) * (height / 10) ** -0.22;
}

/** U(z, t) of a 1 h mean U₀ at 10 m: mean over t seconds at height z. @source NPD / Frøya (seen in public code) */
export function froyaWind(hourMean: number, height: number, seconds: number): number {
  const shear = 0.0573 * Math.sqrt(1 + 0.15 * hourMean);
  const profile = hourMean * (1 + shear * Math.log(height / 10));
  return profile * (1 - 0.41 * froyaIntensity(hourMean, height) * Math.log(seconds / 3600));
}

/** The 1 h mean at 10 m whose mean over `seconds` at `height` is `wind`. Monotone. */
export function froyaHourMean(wind: number, height: number, seconds: number): number {
  if (wind === 0) return 0;
  return brent((mean) => froyaWind(mean, height, seconds) - wind, 0, 4 * wind, 1e-13 * wind);
}

/**
 * Expected largest of a Gaussian record above its mean, in its standard deviations: √(2 ln νT) + 0.5772/√(2 ln νT).
 * @param crossingRate ν, up-crossings of the mean a second, 1/s
 * @param time T, s; below one crossing as for e of them
 * @source Davenport (1964) (recalled)
 */
export function peakFactor(crossingRate: number, time: number): number {
  const root = Math.sqrt(2 * Math.log(Math.max(crossingRate * time, Math.E)));
  return root + EULER / root;
}

/** σ_t and the peak factor of the mean over `duration` within `averaging`. */
function filteredPeak(
  spectrum: WindSpectrum,
  averaging: number,
  duration: number,
): { deviation: number; peak: number } {
  const kept = (f: number): number => {
    const phase = Math.PI * f * duration;
    return windDensity(spectrum, f) * (Math.sin(phase) / phase) ** 2;
  };
  const low = 1 / averaging;
  const knee = Math.max(low, 0.5 / duration);
  // Below the knee the filter is smooth; above it swings once a 1/t, so each half swing gets its own panel.
  const end = knee + 50 / duration;
  const moment = (order: 0 | 2): number => {
    const g = (f: number): number => f ** order * kept(f);
    const smooth = knee > low ? integrateOverDecades(g, low, knee) : 0;
    return smooth + integrate(g, knee, end, 100) + tail(order);
  };
  // Past `end` sin² counts ½ and S falls as f^−p: both tails are closed.
  const slope = -Math.log(windDensity(spectrum, end * 1.01) / windDensity(spectrum, end)) / Math.log(1.01);
  const tail = (order: 0 | 2): number =>
    (windDensity(spectrum, end) * end ** (order - 1)) / (2 * (Math.PI * duration) ** 2 * (slope + 1 - order));
  const variance = moment(0);
  return { deviation: Math.sqrt(variance), peak: peakFactor(Math.sqrt(moment(2) / variance), averaging) };
}
