/**
 * Spectra of the wind's own unrest along the mean wind, S(f) in m²/s² per Hz, one-sided; f in Hz, speeds in m/s.
 *
 * Each holds for the mean it was fitted to: Frøya for 1 h at 10 m over the open sea in strong wind, Kaimal for 10 min
 * at hub height over land classes A to C, Ochi and Shin for the open sea in storms. They differ, and are not blended.
 */
import { integrateOverDecades } from "../numeric/index.ts";

/** Turbulence of a wind, A the strongest. */
export type TurbulenceClass = "A" | "B" | "C";

/** A published spectrum of gusts with its mean wind. */
export type WindSpectrum =
  | { readonly kind: "froya" /** 1 h mean at 10 m. */; readonly wind: number; readonly height: number }
  | {
      readonly kind: "kaimal";
      /** 10 min mean at `height`. */
      readonly wind: number;
      readonly height: number;
      readonly turbulence: TurbulenceClass;
    }
  | { readonly kind: "ochi-shin" /** Mean at 10 m. */; readonly wind: number };

/** S(f), m²/s² per Hz. */
export function windDensity(spectrum: WindSpectrum, f: number): number {
  switch (spectrum.kind) {
    case "froya":
      return froyaDensity(spectrum.wind, spectrum.height, f);
    case "kaimal":
      return kaimalDensity(spectrum.wind, spectrum.height, spectrum.turbulence, f);
    case "ochi-shin":
      return ochiShinDensity(spectrum.wind, f);
  }
}

/** Variance between two frequencies (Hz), m²/s²; to 1e-9 relative. */
export function windVariance(spectrum: WindSpectrum, from: number, to: number): number {
  // Ochi and Shin's branches meet with a corner; a sum across one loses digits.
  const corners = spectrum.kind === "ochi-shin" ? ochiShinCorners.map((reduced) => (reduced * spectrum.wind) / 10) : [];
  const ends = [from, ...corners.filter((corner) => corner > from && corner < to), to];
  let sum = 0;
  for (let i = 1; i < ends.length; i++) {
    sum += integrateOverDecades((f) => windDensity(spectrum, f), ends[i - 1]!, ends[i]!);
  }
  return sum;
}

/**
 * S = 320 (U₀/10)² (z/10)^0.45 / (1 + f̃ⁿ)^(5/(3n)), f̃ = 172 f (z/10)^⅔ (U₀/10)^−¾, n = 0.468.
 * @source NPD / Frøya: NORSOK N-003, ISO 19901-1 (recalled)
 */
export function froyaDensity(wind: number, height: number, f: number): number {
  const n = 0.468;
  const reduced = 172 * f * (height / 10) ** (2 / 3) * (wind / 10) ** -0.75;
  return (320 * (wind / 10) ** 2 * (height / 10) ** 0.45) / (1 + reduced ** n) ** (5 / (3 * n));
}

/** Reference intensities of the classes. @source IEC 61400-1 ed. 3 (seen) */
const intensity = { A: 0.16, B: 0.14, C: 0.12 } as const;

/** σ₁ = I_ref (0.75 V + 5.6), m/s: the standard's representative value, a high one. @source IEC 61400-1 ed. 3 (seen) */
export function kaimalDeviation(wind: number, turbulence: TurbulenceClass): number {
  return intensity[turbulence] * (0.75 * wind + 5.6);
}

/** L = 8.1 × 0.7 min(z, 60 m), m. @source IEC 61400-1 ed. 3 (recalled) */
export function kaimalLength(height: number): number {
  return 8.1 * 0.7 * Math.min(height, 60);
}

/** S = σ² 4 (L/V) / (1 + 6 f L/V)^(5/3); from 0 to f it holds σ² (1 − (1 + 6 f L/V)^−⅔). @source IEC 61400-1 ed. 3 (recalled) */
export function kaimalDensity(wind: number, height: number, turbulence: TurbulenceClass, f: number): number {
  const time = kaimalLength(height) / wind;
  return (kaimalDeviation(wind, turbulence) ** 2 * 4 * time) / (1 + 6 * f * time) ** (5 / 3);
}

/** C₁₀ = (750 + 69 V) 10⁻⁶. @source Ochi & Shin (1988), OTC 5736 (seen in public code) */
export function ochiShinDrag(wind: number): number {
  return (750 + 69 * wind) * 1e-6;
}

const ochiShinCorners = [0.003, 0.1] as const;

/**
 * f S / (C₁₀ V²) = 583 f̃ to 0.003; 420 f̃^0.7 / (1 + f̃^0.35)^11.5 to 0.1; 838 f̃ / (1 + f̃^0.35)^11.5 above; f̃ = 10 f / V.
 * @source Ochi & Shin (1988), OTC 5736 (seen in public code); its branches meet to 1e-5
 */
export function ochiShinDensity(wind: number, f: number): number {
  const reduced = (10 * f) / wind;
  const scale = ochiShinDrag(wind) * wind * wind;
  // The lowest branch divides out f, so that S stays finite at f = 0.
  if (reduced <= ochiShinCorners[0]) return (scale * 583 * 10) / wind;
  const bend = (1 + reduced ** 0.35) ** 11.5;
  const rise = reduced <= ochiShinCorners[1] ? 420 * reduced ** 0.7 : 838 * reduced;
  return (scale * rise) / (bend * f);
}
