/** How sure the equilibrium of a fitted rig is: what the fit leaves open of its mass per length and rise, together. */
import { type Certainty, type Pull, perturbed, type Settled, settle } from "../../rode/index.ts";
import type { Reduction } from "./reduce.ts";

const READ: { readonly [name in keyof Certainty]: (settled: Settled) => number } = {
  anchorTension: (settled) => settled.anchor.tension,
  anchorAngle: (settled) => settled.anchor.angle,
  bowTension: (settled) => settled.bow.tension,
  bowAngle: (settled) => settled.bow.angle,
  horizontal: (settled) => settled.horizontal,
  span: (settled) => settled.span,
  grounded: (settled) => settled.grounded,
  sag: (settled) => settled.sag,
};
const STEP = 0.5;

/**
 * Standard uncertainties of the fitted rig under a load that is itself exact; null where nothing was fitted or a
 * neighbouring rig has no equilibrium.
 * @source JCGM 100:2008 eq. 13, with the fit's correlation of mass per length and rise
 */
export function fittedCertainty(reduced: Reduction, pull: Pull): Certainty | null {
  const { massPerLength, rise } = reduced.fitted;
  const unknowns = [
    { name: "mass per length", u: massPerLength === null ? 0 : massPerLength.u / massPerLength.value },
    { name: "rise", u: rise?.u ?? 0 },
  ].filter(({ u }) => u > 0 && Number.isFinite(u));
  if (unknowns.length === 0) return null;
  const moved = unknowns.map(({ name, u }) => {
    const at = (by: number) =>
      settle(perturbed(reduced.rig, name === "rise" ? 1 : 1 + by * u, name === "rise" ? by * u : 0), pull);
    return { name, up: at(STEP), down: at(-STEP) };
  });
  const together = (a: string, b: string) =>
    reduced.correlation[reduced.names.indexOf(a)]?.[reduced.names.indexOf(b)] ?? (a === b ? 1 : 0);
  const certainty: Partial<Record<keyof Certainty, number>> = {};
  for (const [name, read] of Object.entries(READ) as [keyof Certainty, (settled: Settled) => number][]) {
    const shares = moved.map(({ up, down }) =>
      up.kind === "settled" && down.kind === "settled" ? (read(up) - read(down)) / (2 * STEP) : Number.NaN,
    );
    let sum = 0;
    shares.forEach((a, i) => {
      shares.forEach((b, j) => {
        sum += a * b * together(moved[i]!.name, moved[j]!.name);
      });
    });
    if (Number.isNaN(sum)) return null;
    const u = Math.sqrt(Math.max(0, sum));
    // The load stated comes back as rounding: that is no uncertainty.
    certainty[name] = u > 1e-9 * Math.abs(shares.length === 0 ? 0 : sizeOf(moved[0]!.up, read)) ? u : 0;
  }
  return certainty as Certainty;
}

function sizeOf(answer: ReturnType<typeof settle>, read: (settled: Settled) => number): number {
  return answer.kind === "settled" ? read(answer) : 0;
}
