/**
 * Pulls made by another generator: the load is wound up step by step on a catenary of its own water, and the anchor gives way
 * at the first step at which the load exceeds what it holds at the angle of that step. Nothing of the model's likelihood is
 * in it; the slope put in has to be found again.
 */
import { describe, expect, it } from "vitest";
import { Model, type Pull, USUAL_PRIORS } from "../../src/holding/index.ts";
import { type Rng, rng, sampleChain } from "../../src/statistics/index.ts";

const SLOPE = -0.06;
const CENTRE = 8.2;
const SCATTER = 0.35;
/** N/m of the rode in water. */
const WEIGHT = 20;

interface End {
  readonly newtons: number;
  readonly angle: number;
}

/** Load and angle at the anchor under a horizontal pull: flat while rode lies on the bottom, else by halving (catenary). */
function anchorEnd(horizontal: number, depth: number, length: number): End {
  const hangs = (lift: number): number =>
    (Math.hypot(horizontal, lift + WEIGHT * length) - Math.hypot(horizontal, lift)) / WEIGHT;
  if (hangs(0) >= depth) return { newtons: horizontal, angle: 0 };
  let low = 0;
  let high = 100 * horizontal;
  for (let turn = 0; turn < 80; turn++) {
    const middle = (low + high) / 2;
    if (hangs(middle) < depth) low = middle;
    else high = middle;
  }
  return { newtons: Math.hypot(horizontal, low), angle: Math.atan2(low, horizontal) };
}

/** Wound up by a five-hundredth a step, until the anchor gives way or the engine has no more. */
function pulled(own: Rng): Pull {
  const depth = 4 + 12 * own.uniform();
  const length = depth * (2.5 + 4 * own.uniform());
  const engine = Math.exp(8.5 + 0.4 * own.normal());
  const luck = SCATTER * own.normal();
  const holdsAt = ({ angle }: End): number => Math.exp(CENTRE + SLOPE * ((angle * 180) / Math.PI - 5) + luck);
  let horizontal = 100;
  let end = anchorEnd(horizontal, depth, length);
  while (end.newtons < holdsAt(end) && end.newtons < engine) {
    horizontal *= 1.002;
    end = anchorEnd(horizontal, depth, length);
  }
  const next = anchorEnd(horizontal * 1.001, depth, length);
  return {
    anchor: "A",
    anchorAngle: end.angle,
    angleRise: (next.angle - end.angle) / Math.log(next.newtons / end.newtons),
    hold: { kind: end.newtons >= holdsAt(end) ? "gaveWay" : "heldTo", newtons: end.newtons },
  };
}

/** Mean of what is believed of the slope, with a prior so wide that it says nothing. */
function slopeOf(pulls: readonly Pull[], own: Rng): number {
  const priors = { ...USUAL_PRIORS, angle: { mean: 0, sd: 1 } };
  const model = new Model({ pulls, law: "lognormal", terms: ["angle"], random: [], priors });
  const { draws, length } = sampleChain(model.logDensity, model.start(own), own, { warmUp: 400, draws: 400 });
  let sum = 0;
  for (let s = 0; s < length; s++) sum += draws[s * model.parameters + model.angleAt]!;
  return sum / length;
}

describe("an angle that follows from the load", () => {
  const SERIES = 40;
  const stream = rng(11);
  const found = Array.from({ length: SERIES }, () => {
    const own = stream.branch();
    const pulls = Array.from({ length: 80 }, () => pulled(own));
    const asIfSet = pulls.map(({ angleRise: _, ...pull }): Pull => pull);
    return {
      slope: slopeOf(pulls, own),
      naive: slopeOf(asIfSet, own),
      gaveWay: pulls.filter(({ hold }) => hold.kind === "gaveWay").length,
    };
  });
  const meanAndError = (values: readonly number[]): [number, number] => {
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
    return [mean, Math.sqrt(squares / (values.length - 1) / values.length)];
  };

  it(`gives the slope put in, without bias, over ${SERIES} series of 80 pulls`, () => {
    const [mean, error] = meanAndError(found.map(({ slope }) => slope));
    // Three errors of the mean: one in 370 seeds would fail by chance.
    expect(Math.abs(mean - SLOPE)).toBeLessThan(3 * error);
    // And the error is small enough for that to mean something.
    expect(error).toBeLessThan(0.1 * Math.abs(SLOPE));
  });

  it("and would have been taken for a smaller one, or none, if the angle had been taken as set", () => {
    const [mean, error] = meanAndError(found.map(({ naive }) => naive));
    expect(mean).toBeGreaterThan(SLOPE + 5 * error);
    const gaveWay = found.reduce((sum, one) => sum + one.gaveWay, 0) / (80 * SERIES);
    expect(gaveWay).toBeGreaterThan(0.2);
    expect(gaveWay).toBeLessThan(0.9);
  });
});
