/** How sure the equilibrium of a fitted rig is: what the fit leaves open of its mass per length and rise, together. */
import { type Certainty, type Pull, perturbed, settle, UNCERTAIN, UNCERTAIN_NAMES } from "../../rode/index.ts";
import { combined, jacobian } from "../../statistics/index.ts";
import type { Reduction } from "./reduce.ts";

/**
 * Standard uncertainties of the fitted rig under a load that is itself exact; null where nothing was fitted or a
 * neighbouring rig has no equilibrium.
 * @source JCGM 100:2008 eq. 13, with the fit's correlation of mass per length and rise
 */
export function fittedCertainty(reduced: Reduction, pull: Pull): Certainty | null {
  const { massPerLength, rise } = reduced.fitted;
  const unknowns = [
    { name: "mass per length", value: 0, u: massPerLength === null ? 0 : massPerLength.u / massPerLength.value },
    { name: "rise", value: 0, u: rise?.u ?? 0 },
  ].filter(({ u }) => u > 0 && Number.isFinite(u));
  if (unknowns.length === 0) return null;
  const first = jacobian(
    (x, out) => {
      const moved = (name: string) => x[unknowns.findIndex((unknown) => unknown.name === name)] ?? 0;
      const settled = settle(perturbed(reduced.rig, 1 + moved("mass per length"), moved("rise")), pull);
      UNCERTAIN_NAMES.forEach((name, k) => {
        out[k] = settled.kind === "settled" ? UNCERTAIN[name](settled) : Number.NaN;
      });
    },
    UNCERTAIN_NAMES.length,
    unknowns,
  );
  if (first.kind !== "jacobian") return null;
  const place = (name: string) => reduced.names.indexOf(name);
  const correlation = unknowns.map((a) =>
    unknowns.map((b) => (a === b ? 1 : (reduced.correlation[place(a.name)]?.[place(b.name)] ?? 0))),
  );
  const { u } = combined(first, correlation);
  return Object.fromEntries(UNCERTAIN_NAMES.map((name, k) => [name, u[k]!])) as unknown as Certainty;
}
