/**
 * A record made from a spectrum: x(t) = Σ a_j cos(2π j t/T + φ_j), with a_j²/2 the spectrum's own variance in the band
 * of width 1/T around j/T and φ_j even over the circle. The variance of the whole record is then exactly that of the
 * bands; only the phases are drawn.
 */
export interface Harmonic {
  /** Hz */
  readonly frequency: number;
  readonly amplitude: number;
  /** rad */
  readonly phase: number;
}

/**
 * @param bandVariance variance of the spectrum between two frequencies (Hz)
 * @param duration length of the record before it repeats, s
 * @param highest highest frequency kept, Hz
 * @param draw numbers even over [0, 1)
 */
export function harmonics(
  bandVariance: (from: number, to: number) => number,
  duration: number,
  highest: number,
  draw: () => number,
): readonly Harmonic[] {
  const count = Math.floor(highest * duration);
  return Array.from({ length: count }, (_, i) => {
    const j = i + 1;
    const variance = bandVariance((j - 0.5) / duration, (j + 0.5) / duration);
    return { frequency: j / duration, amplitude: Math.sqrt(2 * variance), phase: 2 * Math.PI * draw() };
  });
}

/** The record's value at time t (s). */
export function valueAt(record: readonly Harmonic[], t: number): number {
  let sum = 0;
  for (const h of record) sum += h.amplitude * Math.cos(2 * Math.PI * h.frequency * t + h.phase);
  return sum;
}
