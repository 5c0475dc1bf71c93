/**
 * Gauss–Hermite quadrature for the normal: ∫ f(z) φ(z) dz ≈ Σ wₖ f(zₖ), exact for polynomials of degree 2n − 1.
 *
 * Nodes are roots of the orthonormal Hermite polynomials of the weight φ, found by Newton from the outside in, each
 * deflated by those before it; weights are 1 / Σ pⱼ(zₖ)², which loses no digits (Golub & Welsch 1969, eq. 2.6).
 */

/**
 * Nodes and weights for the mean of a function of a standard normal, as the head of this file has them.
 *
 * @param n number of nodes, 1 to 100
 * @returns nodes ascending, in standard deviations, symmetric about 0; weights above zero that add up to 1
 */
export function gaussHermite(n: number): { readonly nodes: Float64Array; readonly weights: Float64Array } {
  const nodes = new Float64Array(n);
  const weights = new Float64Array(n);
  const found: number[] = [];
  // Above the largest root (2√n bounds it) the deflated polynomial is convex: Newton comes down on each root in turn.
  let z = 2 * Math.sqrt(n) + 1;
  for (let k = 0; k < n; k++) {
    for (let turn = 0; turn < 1000; turn++) {
      const { value, slope } = orthonormal(n, z);
      let pole = 0;
      for (const root of found) pole += 1 / (z - root);
      const step = value / (slope - value * pole);
      z -= step;
      if (Math.abs(step) <= 4 * Number.EPSILON * Math.max(1, Math.abs(z))) break;
    }
    // Two turns without deflation polish the last digits.
    for (let turn = 0; turn < 2; turn++) {
      const { value, slope } = orthonormal(n, z);
      z -= value / slope;
    }
    found.push(z);
    nodes[n - 1 - k] = z;
    weights[n - 1 - k] = 1 / orthonormal(n, z).squares;
    z -= 1e-3 / Math.sqrt(n);
  }
  return { nodes, weights };
}

/** p_n(z), its slope, and Σ_{j<n} p_j(z)²: p_{j+1} = (z p_j − √j p_{j−1}) / √(j+1). */
function orthonormal(n: number, z: number): { value: number; slope: number; squares: number } {
  let before = 0;
  let now = 1;
  let squares = 0;
  for (let j = 0; j < n; j++) {
    squares += now * now;
    const next = (z * now - Math.sqrt(j) * before) / Math.sqrt(j + 1);
    before = now;
    now = next;
  }
  return { value: now, slope: Math.sqrt(n) * before, squares };
}
