// The chi-squared distribution: twice a gamma variable of half the degrees of freedom.
import { checkedDegreesOfFreedom, checkedShare } from "./distribution-input.ts";
import { gamma } from "./gamma.ts";
import { incompleteGamma, type Shares } from "./incomplete-gamma.ts";
import { normalQuantile } from "./normal.ts";
import { whereShareIs } from "./share-search.ts";

const shares: Shares = { below: 0, above: 0 };

function sharesAt(x: number, dof: number): Shares {
  incompleteGamma(dof / 2, Math.max(0, x / 2), shares);
  return shares;
}

/** Share of chi-squared below `x`, in its far tail as exact as `incompleteGamma`. @throws InputError unless dof > 0. */
export function chiSquaredBelow(x: number, dof: number): number {
  return sharesAt(x, checkedDegreesOfFreedom(dof)).below;
}

/** Share of chi-squared above `x`, in its far tail as exact as `incompleteGamma`. @throws InputError unless dof > 0. */
export function chiSquaredAbove(x: number, dof: number): number {
  return sharesAt(x, checkedDegreesOfFreedom(dof)).above;
}

/**
 * The chi-squared value below which a share `p` lies, as exact as p gives it.
 *
 * @throws InputError unless 0 < p < 1 and dof > 0.
 */
export function chiSquaredQuantile(p: number, dof: number): number {
  checkedDegreesOfFreedom(dof);
  return checkedShare(p) > 0.5
    ? whereShareIs((x) => sharesAt(x, dof).above, 1 - p, false, guess(p, dof))
    : whereShareIs((x) => sharesAt(x, dof).below, p, true, guess(p, dof));
}

/** The chi-squared value above which a share `q` lies, for shares too small to be told from 1 by `1 − q`. */
export function chiSquaredQuantileAbove(q: number, dof: number): number {
  checkedDegreesOfFreedom(dof);
  if (checkedShare(q) > 0.5) return chiSquaredQuantile(1 - q, dof);
  return whereShareIs((x) => sharesAt(x, dof).above, q, false, wilsonHilferty(-normalQuantile(q), dof));
}

function guess(p: number, dof: number): number {
  const a = dof / 2;
  const cubed = wilsonHilferty(normalQuantile(p), dof);
  // Far down P(a, x) is x^a/Γ(a + 1).
  return a < 50 && (p < 0.01 || !(cubed > 0)) ? 2 * (p * gamma(a + 1)) ** (1 / a) : cubed;
}

/** The cube root of chi-squared over its degrees of freedom is nearly normal (Wilson and Hilferty, 1931). */
function wilsonHilferty(z: number, dof: number): number {
  const spread = 2 / (9 * dof);
  return dof * Math.max(0.01, 1 - spread + z * Math.sqrt(spread)) ** 3;
}
