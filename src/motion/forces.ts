/**
 * Forces on the nodes of a moving rode, with their stiffness and damping for the solver's step.
 *
 * An element of unstretched length L between places r₁ and r₂, ℓ = |r₂ − r₁|, u = (r₂ − r₁)/ℓ, carries T(ℓ/L − 1) by the
 * stretch law of its line where it is stretched and nothing where it is not. Its stiffness is
 *     K = (T'/L) u uᵀ + (T/ℓ)(1 − u uᵀ).
 * Weight, and the flow's drag after Morison, ½ρ d L (C_across |w_n| w_n + C_along |w_t| w_t) with w the water's speed past
 * the middle of the element, go in halves to its two nodes. The bottom is in bottom.ts.
 *
 * Not modelled: drag of air, the waves' own water past the rode, bending and torsion of the line.
 */
import { FULL_BLOCK, SYMMETRIC_BLOCK } from "../numeric/index.ts";
import { addBottom, findResting } from "./bottom.ts";
import { ELEMENT_SLOTS } from "./elements.ts";
import { wetShare } from "./inertia.ts";
import { addLoops } from "./loop-forces.ts";
import { BY_PLACE, BY_RATE, type RodeState } from "./rode-state.ts";

/**
 * Writes the forces at `state.at` and `state.rate`, less inertia, to `state.force`, and inertia + BY_PLACE × stiffness +
 * BY_RATE × damping of `state.numbers` (the latter two −∂force/∂…) to the solver's blocks.
 */
export function assembleForces(state: RodeState): void {
  const { bottom } = state.around;
  if (bottom) findResting(state);
  elementForces(state);
  if (state.loopLaw.length > 0) addLoops(state);
  if (bottom) addBottom(state);
  addPoints(state);
}

/**
 * Inertia and the elements. What an element gives its upper node is kept in local names until the next one adds its own, so
 * that every row is written once.
 */
function elementForces(state: RodeState): void {
  const byPlace = state.numbers[BY_PLACE]!;
  const byRate = state.numbers[BY_RATE]!;
  const { elements: e, at, rate, force, tension, lifted, inertia, forceFirst, next } = state;
  const { surface, current } = state.around;
  const { diagonal, beside } = state.system;
  const { count, slots, band: bands } = e;
  let x = at[0]!;
  let y = at[1]!;
  let z = at[2]!;
  let vx = rate[0]!;
  let vy = rate[1]!;
  let vz = rate[2]!;
  let off = lifted[0]!;
  let fx = 0;
  let fy = 0;
  let fz = 0;
  let kxx = 0;
  let kxy = 0;
  let kxz = 0;
  let kyy = 0;
  let kyz = 0;
  let kzz = 0;
  for (
    let k = 0, i = 0, a = 0, b = 0, c = 0;
    k < count;
    k++, i += 3, a += SYMMETRIC_BLOCK, b += FULL_BLOCK, c += ELEMENT_SLOTS
  ) {
    const x1 = x;
    const y1 = y;
    const z1 = z;
    x = at[i + 3]!;
    y = at[i + 4]!;
    z = at[i + 5]!;
    const dx = x - x1;
    const dy = y - y1;
    const dz = z - z1;
    const l = Math.sqrt(dx * dx + dy * dy + dz * dz);
    const inverse = l > 0 ? 1 / l : 0;
    const ux = dx * inverse;
    const uy = dy * inverse;
    const uz = dz * inverse;
    // Tension by the stretch law. Slots by number, in the order of elements.ts: names of another module are looked up at every use.
    const own = slots[c]!;
    const strain = l / own - 1;
    let T = 0;
    let slope = 0;
    if (strain > 0) {
      let band = slots[c + 5]! | 0;
      const last = slots[c + 6]! | 0;
      while (band < last && strain >= bands[band + 3]!) band += 3;
      slope = bands[band + 2]!;
      T = bands[band + 1]! + slope * (strain - bands[band]!);
    }
    tension[k] = T;
    // Weight in halves.
    const wet = wetShare(z1, z, surface);
    const weight = 0.5 * (wet * slots[c + 1]! + (1 - wet) * slots[c + 2]!);
    // Stiffness: s₁ u uᵀ + s₂ 1. It stands on the diagonal twice and beside it with the opposite sign; drag adds ¼ everywhere.
    const s2 = byPlace * T * inverse;
    const s1 = (byPlace * slope) / own - s2;
    const xx = s1 * ux * ux + s2;
    const yy = s1 * uy * uy + s2;
    const zz = s1 * uz * uz + s2;
    const xy = s1 * ux * uy;
    const xz = s1 * ux * uz;
    const yz = s1 * uy * uz;
    let gx = 0;
    let gy = 0;
    let gz = 0;
    let dxx = 0;
    let dyy = 0;
    let dzz = 0;
    let dxy = 0;
    let dxz = 0;
    let dyz = 0;
    const vx1 = vx;
    const vy1 = vy;
    const vz1 = vz;
    vx = rate[i + 3]!;
    vy = rate[i + 4]!;
    vz = rate[i + 5]!;
    const off1 = off;
    off = lifted[k + 1]!;
    const swept = 0.5 * wet * (off1 + off);
    if (swept > 0) {
      const wx = current - 0.5 * (vx1 + vx);
      const wy = -0.5 * (vy1 + vy);
      const wz = -0.5 * (vz1 + vz);
      const wt = wx * ux + wy * uy + wz * uz;
      const nx = wx - wt * ux;
      const ny = wy - wt * uy;
      const nz = wz - wt * uz;
      const wn = Math.sqrt(nx * nx + ny * ny + nz * nz);
      const across = swept * slots[c + 3]!;
      const ca = across * wn;
      const cl = swept * slots[c + 4]! * Math.abs(wt);
      gx = 0.5 * (ca * nx + cl * wt * ux);
      gy = 0.5 * (ca * ny + cl * wt * uy);
      gz = 0.5 * (ca * nz + cl * wt * uz);
      // ∂(|w_n| w_n)/∂w = |w_n| (1 − u uᵀ) + w_n w_nᵀ/|w_n|;  ∂(|w_t| w_t u)/∂w = 2 |w_t| u uᵀ.
      const quarter = 0.25 * byRate;
      const p = quarter * ca;
      const q = wn > 1e-12 ? (quarter * across) / wn : 0;
      const u = quarter * (2 * cl - ca);
      dxx = p + q * nx * nx + u * ux * ux;
      dyy = p + q * ny * ny + u * uy * uy;
      dzz = p + q * nz * nz + u * uz * uz;
      dxy = q * nx * ny + u * ux * uy;
      dxz = q * nx * nz + u * ux * uz;
      dyz = q * ny * nz + u * uy * uz;
    }
    gz -= weight;
    const tx = T * ux;
    const ty = T * uy;
    const tz = T * uz;
    const ax = next[i]!;
    const ay = next[i + 1]!;
    const az = next[i + 2]!;
    const ixx = inertia[a]!;
    const ixy = inertia[a + 1]!;
    const ixz = inertia[a + 2]!;
    const iyy = inertia[a + 3]!;
    const iyz = inertia[a + 4]!;
    const izz = inertia[a + 5]!;
    fx += forceFirst[i]! - ixx * ax - ixy * ay - ixz * az;
    fy += forceFirst[i + 1]! - ixy * ax - iyy * ay - iyz * az;
    fz += forceFirst[i + 2]! - ixz * ax - iyz * ay - izz * az;
    kxx += ixx;
    kxy += ixy;
    kxz += ixz;
    kyy += iyy;
    kyz += iyz;
    kzz += izz;
    force[i] = fx + gx + tx;
    force[i + 1] = fy + gy + ty;
    force[i + 2] = fz + gz + tz;
    fx = gx - tx;
    fy = gy - ty;
    fz = gz - tz;
    const mxx = xx + dxx;
    const mxy = xy + dxy;
    const mxz = xz + dxz;
    const myy = yy + dyy;
    const myz = yz + dyz;
    const mzz = zz + dzz;
    diagonal[a] = kxx + mxx;
    diagonal[a + 1] = kxy + mxy;
    diagonal[a + 2] = kxz + mxz;
    diagonal[a + 3] = kyy + myy;
    diagonal[a + 4] = kyz + myz;
    diagonal[a + 5] = kzz + mzz;
    kxx = mxx;
    kxy = mxy;
    kxz = mxz;
    kyy = myy;
    kyz = myz;
    kzz = mzz;
    const bxy = dxy - xy;
    const bxz = dxz - xz;
    const byz = dyz - yz;
    beside[b] = dxx - xx;
    beside[b + 1] = bxy;
    beside[b + 2] = bxz;
    beside[b + 3] = bxy;
    beside[b + 4] = dyy - yy;
    beside[b + 5] = byz;
    beside[b + 6] = bxz;
    beside[b + 7] = byz;
    beside[b + 8] = dzz - zz;
  }
  const i = 3 * count;
  force[i] = fx;
  force[i + 1] = fy;
  force[i + 2] = fz;
  const a = SYMMETRIC_BLOCK * count;
  diagonal[a] = kxx;
  diagonal[a + 1] = kxy;
  diagonal[a + 2] = kxz;
  diagonal[a + 3] = kyy;
  diagonal[a + 4] = kyz;
  diagonal[a + 5] = kzz;
}

/** Kellets and floats: weight, shared between water and air over their own size, and drag. */
function addPoints(state: RodeState): void {
  const byPlace = state.numbers[BY_PLACE]!;
  const byRate = state.numbers[BY_RATE]!;
  const { elements: e, at, rate, force, around } = state;
  const { diagonal } = state.system;
  for (let k = 0; k < e.pointNode.length; k++) {
    const n = e.pointNode[k]!;
    const i = 3 * n;
    const size = e.pointSize[n]!;
    const above = (at[i + 2]! - around.surface) / size + 0.5;
    const wet = above <= 0 ? 1 : above >= 1 ? 0 : 1 - above;
    force[i + 2]! -= wet * e.pointLow[n]! + (1 - wet) * e.pointHigh[n]!;
    if (wet > 0 && wet < 1) diagonal[SYMMETRIC_BLOCK * n + 5]! += (byPlace * (e.pointHigh[n]! - e.pointLow[n]!)) / size;
    const wx = around.current - rate[i]!;
    const wy = -rate[i + 1]!;
    const wz = -rate[i + 2]!;
    const c = wet * e.pointDrag[n]! * Math.sqrt(wx * wx + wy * wy + wz * wz);
    force[i]! += c * wx;
    force[i + 1]! += c * wy;
    force[i + 2]! += c * wz;
    diagonal[SYMMETRIC_BLOCK * n]! += byRate * c;
    diagonal[SYMMETRIC_BLOCK * n + 3]! += byRate * c;
    diagonal[SYMMETRIC_BLOCK * n + 5]! += byRate * c;
  }
}
