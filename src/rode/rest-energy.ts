/** Energies of rode at rest on a slope, exact inside each band of its stretch law. */
import type { CompiledRode } from "./compile.ts";

/** The constant e₀ with which the strain energy per length inside a band is e₀ + κT²/2, J/m. */
export function bandEnergy(rode: CompiledRode, part: number, band: number): number {
  let e = 0;
  for (let j = rode.firstBand[part]!; j < band; j++) {
    const from = rode.bandLoad[j]!;
    const to = rode.bandLoad[j + 1]!;
    e += 0.5 * rode.bandCompliance[j]! * (to * to - from * from);
  }
  const load = rode.bandLoad[band]!;
  return e - 0.5 * rode.bandCompliance[band]! * load * load;
}

/** Strain energy of a resting piece whose tension runs straight from T1 to T2 (none where that is negative), J. */
export function strainAtRest(rode: CompiledRode, part: number, l: number, T1: number, T2: number): number {
  let energy = 0;
  tautShares(rode, part, T1, T2, (band, a, b, from, to) => {
    energy +=
      (to - from) * l * (bandEnergy(rode, part, band) + (rode.bandCompliance[band]! * (a * a + a * b + b * b)) / 6);
  });
  return energy;
}

/**
 * ∫ (p − ½ run) ds along a resting piece of unstretched length l, m²: how much further along the slope its weight lies
 * than if it were stretched evenly, p being the stretched length from its lower end. With strain straight in s inside a
 * band the integrand is a square, which Simpson's rule integrates exactly.
 */
export function unevenAtRest(rode: CompiledRode, part: number, l: number, T1: number, T2: number): number {
  let further = 0;
  tautShares(rode, part, T1, T2, (band, a, b, from, to) => {
    const strain = (T: number) => rode.bandStrain[band]! + rode.bandCompliance[band]! * T;
    // Stretch at s moves all that lies above it: ∫ ε (l − s) ds, less its even half.
    const [first, last] = T1 <= T2 ? [strain(a), strain(b)] : [strain(b), strain(a)];
    const lever = (share: number) => (0.5 - share) * l;
    const middle = 0.5 * (from + to);
    further += ((to - from) * l * (first * lever(from) + 2 * (first + last) * lever(middle) + last * lever(to))) / 6;
  });
  return further;
}

/**
 * Goes through the bands that a tension running straight from T1 to T2 passes: with each its least and greatest tension a
 * and b in it, and the shares of the length, from the lower end, between which it lies.
 */
function tautShares(
  rode: CompiledRode,
  part: number,
  T1: number,
  T2: number,
  visit: (band: number, a: number, b: number, from: number, to: number) => void,
): void {
  const low = Math.max(0, Math.min(T1, T2));
  const top = Math.max(T1, T2);
  if (top <= 0) return;
  const spread = T2 - T1;
  const end = rode.firstBand[part + 1]!;
  for (let band = rode.firstBand[part]!; band < end; band++) {
    const a = Math.max(low, rode.bandLoad[band]!);
    const b = Math.min(top, band + 1 < end ? rode.bandLoad[band + 1]! : Number.POSITIVE_INFINITY);
    if (b < a || (b === a && spread !== 0)) continue;
    if (spread === 0) {
      visit(band, a, a, 0, 1);
      return;
    }
    const [one, other] = [(a - T1) / spread, (b - T1) / spread];
    visit(band, a, b, Math.min(one, other), Math.max(one, other));
  }
}
