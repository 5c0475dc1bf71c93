/**
 * Axial stiffness of chain from the shape of its link, by elasticity (Castigliano).
 *
 * A link is a ring of round bar: two straight legs of length P − W and two half circles of mean radius R = (W + d)/2,
 * with bar d, inside length (pitch) P and inside width W. Its neighbours pull at the crowns, each over an arc of
 * half angle β of the crown. One quarter of the ring tells all, by symmetry. At angle θ from the leg (0) to the
 * middle of the crown (π/2) the section carries, for a pull F on the chain,
 *
 *     vertical force  T = F/2                  where the neighbour does not bear,
 *                     T = F/2 · cos θ / sin β   where it bears (pressure even over the width),
 *     normal force    N = T cos θ,   shear V = T sin θ,
 *     moment          M = M₀ − F/2 · R (1 − cos θ) + F/2 · R (sin β − cos θ)² / (2 sin β)   (last term where it bears),
 *
 * M positive where it straightens the bar. The bar is thick for its radius (R ≈ 1.2 d), so the crown is a curved
 * beam: its energy per length is
 *
 *     M²/(2 A E e R) + N²/(2 A E) − M N/(A E R) + α V²/(2 G A),
 *
 * where e = (R − √(R² − d²/4))/2 is how far the neutral line lies inside the middle, and α = 10/9 for a round bar.
 * M₀ follows from ∂U/∂M₀ = 0 (the leg does not turn at its middle). With F = 1 the stretch of a link is 2 U, and
 *
 *     EA of the chain = P / (2 U).
 *
 * @source Timoshenko, Strength of Materials, part II: curved bars, and links (recalled). Known limits, tested: a thin
 * ring pulled across stretches by (π/4 − 2/π) F R³/(E I); a long link tends to two straight bars, EA = 2 A E.
 */

/** Steel: Young's modulus, Pa, and Poisson's ratio (handbook values, recalled). */
const STEEL_MODULUS = 206e9;
const POISSON = 0.3;
/** Shear factor of a round bar. */
const SHEAR = 10 / 9;

/**
 * Half angle over which a neighbour bears on the crown, rad. New links touch at a point (0); proof loading and wear
 * bed them in. 30° is assumed. At 30° a link of pitch 4 d and outer width 3.35 d comes out at 0.77e11 d², where
 * DNV-OS-E301 gives 0.85e11 d² for studless chain of small bar; a point contact gives 0.60e11 d², 60° 1.11e11 d².
 */
export const BEDDED_IN = Math.PI / 6;

/** Half width of the answer, relative: from point contact to a bearing of 60°. */
export const LINK_SPREAD = 0.3;

/** Relative standard uncertainty of the stretch of chain that comes from it (rectangular, JCGM 100:2008, 4.3.7). */
export const CHAIN_STRETCH_U = LINK_SPREAD / Math.sqrt(3);

/** Lengths of a link, m. */
export interface LinkShape {
  /** Diameter of the bar. */
  readonly bar: number;
  /** Inside length. */
  readonly pitch: number;
  readonly insideWidth: number;
}

/** The shape assumed of a short link when only its bar is known: pitch 3 d (ISO 4565 from 8 mm on), inside width 1.4 d. */
export function usualShortLink(bar: number): LinkShape {
  return { bar, pitch: 3 * bar, insideWidth: 1.4 * bar };
}

/**
 * EA of a chain, N: load over strain of its length.
 * @param shape pitch > inside width > 0, bar > 0.
 * @param bearing half angle of contact, rad, from 0 (a point) to less than π/2.
 * @returns to 1e-9 of the model; the model itself is good to about 30 % (contact, wear, weld).
 */
export function chainStiffness(shape: LinkShape, bearing = BEDDED_IN, modulus = STEEL_MODULUS): number {
  const { bar, pitch, insideWidth } = shape;
  const half = bar / 2;
  const area = Math.PI * half * half;
  const inertia = (area * half * half) / 4;
  const radius = (insideWidth + bar) / 2;
  const leg = (pitch - insideWidth) / 2;
  const shear = modulus / (2 * (1 + POISSON));
  // R − √(R² − r²) without cancelling: r² / (R + √(R² − r²)).
  const offset = (half * half) / (radius + Math.sqrt(radius * radius - half * half)) / 2;

  const sine = Math.sin(bearing);
  const edge = Math.PI / 2 - bearing;
  const pull = (angle: number) => (angle > edge ? (0.5 * Math.cos(angle)) / sine : 0.5);
  const momentLessFirst = (angle: number) => {
    const free = -0.5 * radius * (1 - Math.cos(angle));
    return angle > edge ? free + (0.25 * radius * (sine - Math.cos(angle)) ** 2) / sine : free;
  };
  const alongCrown = (f: (angle: number) => number) =>
    radius * (integral(f, 0, edge) + (bearing > 0 ? integral(f, edge, Math.PI / 2) : 0));

  const curved = area * modulus * offset * radius;
  const first =
    -alongCrown((t) => momentLessFirst(t) / curved - (pull(t) * Math.cos(t)) / (area * modulus * radius)) /
    (leg / (modulus * inertia) + alongCrown(() => 1 / curved));
  const twiceEnergyOfQuarter =
    leg * (first ** 2 / (modulus * inertia) + 0.25 / (area * modulus)) +
    alongCrown((t) => {
      const moment = first + momentLessFirst(t);
      const normal = pull(t) * Math.cos(t);
      const across = pull(t) * Math.sin(t);
      return (
        moment ** 2 / curved +
        normal ** 2 / (area * modulus) -
        (2 * moment * normal) / (area * modulus * radius) +
        (SHEAR * across ** 2) / (shear * area)
      );
    });
  return pitch / (4 * twiceEnergyOfQuarter);
}

/** Mass per length of a chain of round bar and such links, kg/m: bar length of a ring over its pitch. */
export function chainMassPerLength(shape: LinkShape, density = 7850): number {
  const { bar, pitch, insideWidth } = shape;
  const ring = 2 * (pitch - insideWidth) + Math.PI * (insideWidth + bar);
  return (density * Math.PI * bar * bar * ring) / (4 * pitch);
}

/** Gauss–Legendre abscissae and weights of eight points on (−1, 1), the positive half (Abramowitz & Stegun, table 25.4). */
const GAUSS: readonly (readonly [x: number, weight: number])[] = [
  [0.1834346424956498, 0.362683783378362],
  [0.525532409916329, 0.3137066458778873],
  [0.7966664774136267, 0.2223810344533745],
  [0.9602898564975363, 0.1012285362903763],
];

/** The integrands are short trigonometric polynomials on each piece: eight points integrate them to 1e-10. */
function integral(f: (x: number) => number, from: number, to: number): number {
  const [middle, half] = [(from + to) / 2, (to - from) / 2];
  let sum = 0;
  for (const [x, weight] of GAUSS) sum += weight * (f(middle - half * x) + f(middle + half * x));
  return sum * half;
}
