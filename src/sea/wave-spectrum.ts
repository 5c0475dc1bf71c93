/**
 * Spectra of wave elevation, S(ω) in m² per rad/s, one-sided: ∫ S dω is the variance of the surface.
 *
 * Both are written on the significant height H_s = 4 √m₀ and the peak period T_p. With r = ω_p/ω:
 *   Pierson-Moskowitz  S = (5/16) H_s² ω_p⁴ ω⁻⁵ exp(−(5/4) r⁴)
 *   JONSWAP            S = A(γ) S_PM γ^exp(−(ω−ω_p)² / (2 σ² ω_p²)),  σ = 0.07 up to the peak, 0.09 above
 * A(γ) keeps the height. The usual fit 1 − 0.287 ln γ misses by up to 2 % of the variance (γ = 7); here A is integrated,
 * so that a spectrum returns the height it was made for; the fit is kept beside it for comparison.
 * @source Pierson & Moskowitz (1964); Hasselmann et al. (1973); forms as in DNV-RP-C205
 */

import { integrate } from "../numeric/index.ts";
import { GRAVITY } from "../rode/index.ts";

/** A sea: its kind, significant height (m) and peak period (s). */
export interface WaveSpectrum {
  readonly kind: "pierson-moskowitz" | "jonswap";
  /** H_s, m. */
  readonly significantHeight: number;
  /** T_p, s. */
  readonly peakPeriod: number;
  /** γ: 1 for Pierson-Moskowitz. */
  readonly peakedness: number;
  /** A(γ), integrated. */
  readonly normalisation: number;
}

/** A fully developed sea of that height (m) and peak period (s). */
export function piersonMoskowitz(significantHeight: number, peakPeriod: number): WaveSpectrum {
  return { kind: "pierson-moskowitz", significantHeight, peakPeriod, peakedness: 1, normalisation: 1 };
}

/**
 * A sea that still grows, of that height and peak period: a Pierson-Moskowitz spectrum sharpened about its peak.
 * @param significantHeight H_s, m
 * @param peakPeriod T_p, s
 * @param peakedness γ, 1 to 7; 3.3 is the mean of the North Sea measurements the spectrum was fitted to
 * @source Hasselmann et al. (1973) (recalled)
 */
export function jonswap(significantHeight: number, peakPeriod: number, peakedness = 3.3): WaveSpectrum {
  return { kind: "jonswap", significantHeight, peakPeriod, peakedness, normalisation: exactNormalisation(peakedness) };
}

/** The fully developed sea of a wind, U at 19.5 m above the water, m/s. @source Pierson & Moskowitz (1964), α = 0.0081, β = 0.74 (recalled) */
export function fullyDevelopedSea(windAt19m5: number, gravity = GRAVITY): WaveSpectrum {
  const alpha = 0.0081;
  const beta = 0.74;
  const omega0 = gravity / windAt19m5;
  // m₀ = α g² / (4 β ω₀⁴); the peak stands where dS/dω = 0: ω_p⁴ = (4/5) β ω₀⁴.
  const variance = (alpha * gravity * gravity) / (4 * beta * omega0 ** 4);
  const peak = omega0 * (0.8 * beta) ** 0.25;
  return piersonMoskowitz(4 * Math.sqrt(variance), (2 * Math.PI) / peak);
}

/** S(ω), m² per rad/s. */
export function elevationDensity(spectrum: WaveSpectrum, omega: number): number {
  if (!(omega > 0)) return 0;
  const peak = (2 * Math.PI) / spectrum.peakPeriod;
  const shape = unitDensity(omega / peak, spectrum.peakedness) * spectrum.normalisation;
  return (spectrum.significantHeight ** 2 / peak) * shape;
}

/** Moment m_n = ∫ ωⁿ S dω for n = −1, 0, 1, 2 (n ≥ 4 does not exist: the tail falls as ω⁻⁵). To 1e-9 relative. */
export function moment(spectrum: WaveSpectrum, order: number): number {
  const peak = (2 * Math.PI) / spectrum.peakPeriod;
  const scale = spectrum.significantHeight ** 2 * peak ** order * spectrum.normalisation;
  return scale * unitMoment(order, spectrum.peakedness);
}

/** Mean periods of a spectrum, s: T_m01 = 2π m₀/m₁, T_m02 = 2π √(m₀/m₂) (between zero up-crossings), T_m-1,0 = 2π m₋₁/m₀. */
export function meanPeriods(spectrum: WaveSpectrum): { tm01: number; tm02: number; tm10: number } {
  const [mMinus, m0, m1, m2] = [-1, 0, 1, 2].map((n) => moment(spectrum, n)) as [number, number, number, number];
  return {
    tm01: (2 * Math.PI * m0) / m1,
    tm02: 2 * Math.PI * Math.sqrt(m0 / m2),
    tm10: (2 * Math.PI * mMinus) / m0,
  };
}

/** The usual fit to A(γ), for comparison: 1 − 0.287 ln γ. @source DNV-RP-C205 (form seen in an open library's manual) */
export function fittedNormalisation(peakedness: number): number {
  return 1 - 0.287 * Math.log(peakedness);
}

/** A(γ) = ∫ S_PM / ∫ S_PM γ^(…): the factor that keeps the significant height. */
export function exactNormalisation(peakedness: number): number {
  return peakedness === 1 ? 1 : 0.0625 / unitMoment(0, peakedness);
}

/** The spectrum without A on H_s = 1 and ω_p = 1. */
function unitDensity(x: number, peakedness: number): number {
  const moskowitz = (5 / 16) * x ** -5 * Math.exp(-1.25 * x ** -4);
  if (peakedness === 1) return moskowitz;
  const width = x <= 1 ? 0.07 : 0.09;
  return moskowitz * peakedness ** Math.exp(-((x - 1) ** 2) / (2 * width * width));
}

/**
 * ∫ xⁿ S₁(x) dx. The peak jumps in its width at x = 1, so a panel ends there; beyond x = 2 the peak has gone to 1e-26 and
 * the tail is closed: ∫ x^(n−5) exp(−1.25 x⁻⁴) from X on, in u = x⁻⁴ a smooth integral over a finite range.
 */
function unitMoment(order: number, peakedness: number): number {
  const g = (x: number): number => x ** order * unitDensity(x, peakedness);
  const body = integrate(g, 0.3, 1, 40) + integrate(g, 1, 2, 60);
  // x = 1/s, dx = −ds/s²: ∫ (5/16) s^(3−n) exp(−1.25 s⁴) ds over 0 … ½.
  const tail = integrate((s) => (5 / 16) * s ** (3 - order) * Math.exp(-1.25 * s ** 4), 0, 0.5, 8);
  return body + tail;
}
