/** How holding falls with the angle at the anchor, as far as the pulls and the priors tell. */
import type { Conclusion } from "./conclude.ts";
import { anchorCentres, type Between, betweenOf, quantiles } from "./holding-draws.ts";
import type { Posterior } from "./posterior.ts";
import type { Pull } from "./pull.ts";

/** What an anchor holds over the angle it is pulled at. */
export interface AngleCurve {
  readonly anchor: string;
  /** Load half its pulls hold at a site and day not pulled at yet, N, over the angle, rad. */
  readonly points: readonly (Between & { readonly angle: number })[];
}

/**
 * Least and largest angle at the anchor of the pulls, rad: what lies beyond is drawn on, not seen.
 * @returns undefined where no pull has an angle
 */
export function anglesPulledAt(pulls: readonly Pull[]): readonly [least: number, most: number] | undefined {
  const angles = pulls.flatMap(({ anchorAngle }) => (anchorAngle === undefined ? [] : [anchorAngle]));
  if (angles.length === 0) return undefined;
  return [angles.reduce((a, b) => Math.min(a, b)), angles.reduce((a, b) => Math.max(a, b))];
}

/** @returns a curve an anchor, under the conclusion's other conditions; none where the angle is no term */
export function angleCurves(posterior: Posterior, conclusion: Conclusion, angles: readonly number[]): AngleCurve[] {
  const { model } = posterior;
  if (model.angleAt < 0) return [];
  const middle = quantiles(posterior, 0.5);
  return conclusion.holds.map(({ anchor, mass, seabed }) => {
    const who = model.anchorNames.indexOf(anchor);
    return {
      anchor,
      points: angles.map((angle) => {
        const centre = anchorCentres(
          posterior,
          who,
          { anchorAngle: angle, ...(seabed === undefined ? {} : { seabed }) },
          mass,
        );
        return { angle, ...betweenOf(centre.map((eta, s) => Math.exp(eta + middle[s]!))) };
      }),
    };
  });
}
