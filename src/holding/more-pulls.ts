/**
 * How many more pulls of each would tell two anchors apart, by simulation: a truth is drawn from what is believed now, so
 * many pulls of both are made from it on one site, ended where pulls of this series are ended, and what they say is joined
 * to what is believed. Told apart: one is ahead with 95 % chance. The answer is the fewest pulls with which four in five
 * such series would end so.
 */
import { normalQuantile, type Rng } from "../statistics/index.ts";
import { fitAft } from "./aft.ts";
import { kaplanMeier } from "./kaplan-meier.ts";
import { lawQuantile } from "./law.ts";
import { observations } from "./observations.ts";
import { type Posterior, spreadOf } from "./posterior.ts";
import type { Hold, Pull } from "./pull.ts";

/** How many more pulls would tell two anchors apart. */
export type MorePulls =
  | { readonly kind: "enough"; readonly each: number; readonly share: number }
  /** Not even so many would in four of five series; what share would be. */
  | { readonly kind: "notBy"; readonly each: number; readonly share: number };

const TRIED = [3, 5, 8, 12, 20, 30, 50, 100] as const;
const WANTED = 0.8;
const AHEAD = 0.95;

/** @param first, second places among the model's anchors */
export function morePulls(
  posterior: Posterior,
  pulls: readonly Pull[],
  first: string,
  second: string,
  rng: Rng,
  series = 200,
): MorePulls {
  const { model, length } = posterior;
  const a = model.anchorNames.indexOf(first);
  const b = model.anchorNames.indexOf(second);
  const lnMass = (anchor: string): number => {
    const own = pulls.flatMap((pull) =>
      pull.anchor === anchor && pull.mass !== undefined ? [Math.log(pull.mass)] : [],
    );
    return own.length === 0 ? 0 : own.reduce((sum, value) => sum + value, 0) / own.length;
  };
  const heavier = model.massAt < 0 ? 0 : lnMass(first) - lnMass(second);
  const aheadAt = (at: Float64Array): number =>
    model.effect(at, model.anchors, a) -
    model.effect(at, model.anchors, b) +
    (model.massAt < 0 ? 0 : at[model.massAt]! * heavier);
  const drawAt = (s: number): Float64Array =>
    posterior.draws.subarray(s * model.parameters, (s + 1) * model.parameters);
  const now = spreadOf(Float64Array.from({ length }, (_, s) => aheadAt(drawAt(s))));
  const place = new Map(model.anchorNames.map((name, k) => [name, k]));
  const limits = limitsOf(pulls);
  const sure = normalQuantile(AHEAD);
  let share = 0;
  for (const each of TRIED) {
    let told = 0;
    for (let k = 0; k < series; k++) {
      const at = drawAt(rng.integer(length));
      const sigma = model.scatter(at);
      const ahead = aheadAt(at);
      const holds: Hold[] = [];
      const rows: number[] = [];
      for (let i = 0; i < 2 * each; i++) {
        const mine = i % 2 === 0;
        // Conditions are those of a pull of this series, and known: loads are told less what they bring.
        const like = rng.integer(pulls.length);
        const own = model.effect(at, model.anchors, place.get(pulls[like]!.anchor)!);
        const other = model.effect(at, model.anchors, b);
        const conditions = model.centre(at, like) - own + other;
        const u = Math.min(1 - 1e-12, Math.max(1e-12, rng.uniform()));
        const load = Math.exp((mine ? ahead : 0) + sigma * lawQuantile(model.law, u, normalQuantile));
        const limit = limits(rng) / Math.exp(conditions);
        // Read as roughly as loads of this series are.
        const error = pulls[like]!.loadError ?? 0;
        const newtons = Math.min(load, limit) * (error === 0 ? 1 : Math.exp(error * rng.normal()));
        holds.push(load <= limit ? { kind: "gaveWay", newtons } : { kind: "heldTo", newtons });
        rows.push(1, mine ? 1 : 0);
      }
      const fit = fitAft({
        law: model.law,
        observations: observations(holds),
        terms: { names: ["intercept", "ahead"], rows: Float64Array.from(rows) },
      });
      // Pulls that have no best fit add nothing that could be counted on.
      const add = fit.kind === "fitted" ? fit.terms[1]! : undefined;
      const weight = add === undefined ? 0 : 1 / add.u ** 2;
      const own = 1 / now.sd ** 2;
      const joined = (now.mean * own + (add?.value ?? 0) * weight) / (own + weight);
      if (Math.abs(joined) * Math.sqrt(own + weight) > sure) told++;
    }
    share = told / series;
    if (share >= WANTED) return { kind: "enough", each, share };
  }
  return { kind: "notBy", each: TRIED.at(-1)!, share };
}

/** Loads at which pulls of this series are ended while the anchor holds: their own Kaplan–Meier curve; none where none was. */
function limitsOf(pulls: readonly Pull[]): (rng: Rng) => number {
  const ended: Hold[] = pulls.map(({ hold }) =>
    hold.kind === "heldTo"
      ? { kind: "gaveWay", newtons: hold.newtons }
      : { kind: "heldTo", newtons: hold.kind === "between" ? hold.heldTo : hold.newtons },
  );
  const steps = kaplanMeier(ended);
  const last = steps.at(-1);
  if (last === undefined) return () => Number.POSITIVE_INFINITY;
  return (rng) => {
    const u = rng.uniform();
    return (steps.find(({ chance }) => chance <= u) ?? last).load;
  };
}
