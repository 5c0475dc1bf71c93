/** Uncertainty of a settled rode from what its rig states of mass per length and rise: JCGM 100, first order. */
import { type Budget, budget } from "../chance/index.ts";
import type { Pull, Rig, Settled } from "./model.ts";
import { riseOf } from "./model.ts";
import { settle } from "./settle.ts";

/** The quantities of an equilibrium that carry an uncertainty. */
export const UNCERTAIN = {
  anchorTension: (s: Settled) => s.anchor.tension,
  anchorAngle: (s: Settled) => s.anchor.angle,
  bowTension: (s: Settled) => s.bow.tension,
  bowAngle: (s: Settled) => s.bow.angle,
  horizontal: (s: Settled) => s.horizontal,
  span: (s: Settled) => s.span,
  grounded: (s: Settled) => s.grounded,
  sag: (s: Settled) => s.sag,
} as const;

export type Certainty = Readonly<Record<keyof typeof UNCERTAIN, number>>;

/** The rig with its mass per length scaled and its rise moved: the two things a tester is unsure of. */
export function perturbed(rig: Rig, massFactor: number, riseShift: number): Rig {
  const setting =
    rig.setting.medium === "air"
      ? { ...rig.setting, rise: rig.setting.rise + riseShift }
      : { ...rig.setting, depth: rig.setting.depth + riseShift };
  const rode = rig.rode.map((part) =>
    part.kind === "line" ? { ...part, massPerLength: part.massPerLength * massFactor } : part,
  );
  return { ...rig, setting, rode };
}

/**
 * Standard uncertainties of an equilibrium, SI and radians; null when the rig states none or a neighbouring rig has no
 * equilibrium.
 * @source JCGM 100:2008, eq. 10, with sensitivities by central differences
 */
export function certaintyOf(rig: Rig, pull: Pull): Certainty | null {
  const { massPerLength = 0, rise = 0 } = rig.uncertainty;
  if (massPerLength === 0 && rise === 0) return null;
  if (rise >= 0.5 * riseOf(rig.setting)) return null;
  const inputs = [
    { name: "mass per length", value: 1, u: massPerLength },
    { name: "rise", value: 0, u: rise },
  ].filter((input) => input.u > 0);
  const result: Partial<Record<keyof typeof UNCERTAIN, number>> = {};
  for (const [name, read] of Object.entries(UNCERTAIN) as [keyof typeof UNCERTAIN, (s: Settled) => number][]) {
    const answer: Budget = budget((x) => {
      const at = (which: string, otherwise: number) => {
        const i = inputs.findIndex((input) => input.name === which);
        return i < 0 ? otherwise : x[i]!;
      };
      const settled = settle(perturbed(rig, at("mass per length", 1), at("rise", 0)), pull);
      return settled.kind === "settled" ? read(settled) : Number.NaN;
    }, inputs);
    if (!Number.isFinite(answer.u)) return null;
    // What is stated exactly (the load itself) comes back as rounding: that is no uncertainty.
    result[name] = answer.u > 1e-9 * Math.abs(answer.value) ? answer.u : 0;
  }
  return result as Certainty;
}
