/**
 * What draws foretell, apart from the pulls they were drawn from: a column a term, so that they can be kept, sent and asked
 * again without the pulls, their sites and their days.
 */
import type { Law } from "./law.ts";
import type { Posterior } from "./posterior.ts";

/** Draws of what an anchor holds at a site and on a day not pulled at yet; ln of newtons at the anchor, a value a draw. */
export interface PredictiveDraws {
  readonly law: Law;
  readonly length: number;
  readonly anchors: readonly string[];
  readonly seabeds: readonly string[];
  /** ln of the mass in kg that `centre` is meant at. */
  readonly lnMassMiddle: number;
  /** Centre of ln H at the reference angle. */
  readonly centre: Float64Array;
  /** What a degree at the anchor adds; zero where the angle is no term, as `mass` where the mass is none. */
  readonly angle: Float64Array;
  /** What ln of mass adds. */
  readonly mass: Float64Array;
  /** Of sites, days and testers together. */
  readonly spread: Float64Array;
  readonly scatter: Float64Array;
  /** What each anchor adds; none where only one was pulled. */
  readonly ofAnchor: readonly Float64Array[];
  /** What each seabed adds; none where they are no term. */
  readonly ofSeabed: readonly Float64Array[];
}

/** The draws of a posterior by their terms, evenly thinned to so many (or drawn on again where there are fewer). */
export function predictiveDraws({ model, draws, length }: Posterior, count: number): PredictiveDraws {
  const rows = Array.from({ length: count }, (_, k) => {
    const s = Math.floor((k * length) / count);
    return draws.subarray(s * model.parameters, (s + 1) * model.parameters);
  });
  const column = (value: (at: Float64Array) => number): Float64Array => Float64Array.from(rows, value);
  const levels = (group: typeof model.anchors): Float64Array[] =>
    (group?.names ?? []).map((_, level) => column((at) => model.effect(at, group, level)));
  return {
    law: model.law,
    length: count,
    anchors: model.anchorNames,
    seabeds: model.seabeds?.names ?? [],
    lnMassMiddle: model.lnMassMiddle,
    centre: column((at) => at[0]!),
    angle: column((at) => (model.angleAt < 0 ? 0 : at[model.angleAt]!)),
    mass: column((at) => (model.massAt < 0 ? 0 : at[model.massAt]!)),
    spread: column((at) => model.newSpread(at)),
    scatter: column((at) => model.scatter(at)),
    ofAnchor: levels(model.anchors),
    ofSeabed: levels(model.seabeds),
  };
}
