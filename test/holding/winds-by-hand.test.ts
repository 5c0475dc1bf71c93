/**
 * The chance to hold in a wind, from draws set by hand: chances worked out here from the rode's own equilibrium and the
 * normal law, the load and the angle moved by their errors one at a time.
 */
import { describe, expect, it } from "vitest";
import { drawsInWind, type PredictiveDraws, peakLoad, type WindPoint } from "../../src/holding/index.ts";
import { certaintyOf, type Rig, readRig, settle } from "../../src/rode/index.ts";
import { type Boat, readBoat, weather } from "../../src/sea/index.ts";
import { normalBelow, rng } from "../../src/statistics/index.ts";

const DEGREE = Math.PI / 180;
const rigOf = (extra = "", setting = ""): Rig =>
  readRig(
    `format: rodebench/rig@1
name: invented
setting: { medium: water, depth: 6 m, rollerHeight: 1 m, bottomFriction: 0${setting} }
rode:
  - chain: { grade: "30", size: 8 mm, length: 20 m }
${extra}`,
    "rig",
  );
const boatOf = (rest: string): Boat =>
  readBoat(
    `format: rodebench/boat@1
name: invented
length: 10 m
beam: 3.3 m
draught: 1.7 m
displacement: 5000 kg
bowRollerHeight: 1 m
${rest}`,
    "boat",
  );
const measured = boatOf(`measured:
  - { wind: 10 kn, load: 200 N, peak: 400 N, at: bow, uncertainty: { load: 20 N, peak: 40 N } }
  - { wind: 20 kn, load: 800 N, peak: 1600 N, at: bow, uncertainty: { load: 80 N, peak: 160 N } }
  - { wind: 30 kn, load: 1800 N, peak: 3600 N, at: bow, uncertainty: { load: 180 N, peak: 360 N } }
`);
const WIND = 12;

interface Held {
  readonly centre: (s: number) => number;
  readonly angle?: number;
  readonly spread?: number;
  readonly scatter?: number;
  readonly mass?: number;
}
/** Two anchors and two seabeds, B holding e^0.4 times what A does, sand e^0.2 times what mud does; M₀ = 15 kg. */
function drawsOf({ centre, angle = 0, spread = 0.3, scatter = 0.4, mass = 0 }: Held, length = 1000): PredictiveDraws {
  const column = (of: (s: number) => number) => Float64Array.from({ length }, (_, s) => of(s));
  return {
    law: "lognormal",
    length,
    anchors: ["A", "B"],
    seabeds: ["mud", "sand"],
    lnMassMiddle: Math.log(15),
    centre: column(centre),
    angle: column(() => angle),
    mass: column(() => mass),
    spread: column(() => spread),
    scatter: column(() => scatter),
    ofAnchor: [column(() => 0), column(() => 0.4)],
    ofSeabed: [column(() => -0.1), column(() => 0.1)],
  };
}
type Chance = Extract<WindPoint, { kind: "chance" }>;
function inWind(draws: PredictiveDraws, more: object = {}, rig = rigOf(), boat = measured): Chance {
  const [point] = drawsInWind(draws, { boat, rig, winds: [WIND], anchor: "A", ...more }, rng(7));
  if (point!.kind !== "chance") throw new Error(point!.kind);
  return point!;
}
const peak = peakLoad(measured, WIND)!;
const SPREAD = peak.u / peak.value;
/** Load at the anchor and angle above the bottom under the peak, moved by so many of its errors. */
function endAt(rig: Rig, z = 0): { ln: number; degrees: number } {
  const settled = settle(rig, { at: "bow", newtons: peak.value * Math.exp(SPREAD * z) });
  if (settled.kind !== "settled") throw new Error(settled.kind);
  return { ln: Math.log(settled.anchor.tension), degrees: settled.anchor.angleToBottom / DEGREE };
}
/** Mean of f over a standard normal, by the middle rule. */
function mean(f: (z: number) => number): number {
  let sum = 0;
  const n = 400;
  for (let k = 0; k < n; k++) {
    const z = -5 + (10 * (k + 0.5)) / n;
    sum += (f(z) * Math.exp(-0.5 * z * z) * (10 / n)) / Math.sqrt(2 * Math.PI);
  }
  return sum;
}
const above = (ln: number, centre: number): number => normalBelow((centre - ln) / Math.hypot(0.3, 0.4));

describe("the largest load of a wind", () => {
  it("is that of the boat's measured peaks, at their end", () => {
    const [own] = weather(measured, { value: WIND, u: 0 }).measured;
    expect(peak).toEqual({ value: own!.peak!.value, u: own!.peak!.u, at: "bow", from: "measuredPeaks" });
    // Peaks go with the square of the wind, 400 N at 10 kn.
    expect(peak.value).toBeCloseTo(400 * (WIND / ((10 * 1852) / 3600)) ** 2, 3);
  });

  it("is that of windage in a gust where no peaks were measured, larger than in the mean; none where nothing is known", () => {
    const hull = boatOf("windage: { shapes: [hull: { freeboard: 1 m }] }\n");
    const load = peakLoad(hull, WIND)!;
    expect(load).toMatchObject({ at: "horizontal", from: "windageGust" });
    const steady = weather(hull, { value: WIND, u: 0 }).windage!.steady;
    // The Frøya formula (ISO 19901-1, recalled): of the hour's mean U at 10 m, over t seconds, U (1 − 0.41 I ln(t/3600))
    // with I = 0.06 (1 + 0.043 U); here U is sought whose ten minutes are 12 m/s.
    const over = (t: number, U: number): number => 1 - 0.41 * 0.06 * (1 + 0.043 * U) * Math.log(t / 3600);
    let hour = WIND;
    for (let turn = 0; turn < 50; turn++) hour = WIND / over(600, hour);
    expect(load.value / steady.value).toBeCloseTo((over(3, hour) / over(600, hour)) ** 2, 6);
    const bare = boatOf("");
    expect(peakLoad(bare, WIND)).toBeUndefined();
    const asked = { boat: bare, rig: rigOf(), winds: [WIND, 20], anchor: "A" };
    expect(drawsInWind(drawsOf({ centre: () => 8 }), asked, rng(1))).toEqual([
      { kind: "noLoad", wind: WIND },
      { kind: "noLoad", wind: 20 },
    ]);
    const calm = { ...asked, boat: measured, winds: [0] };
    expect(drawsInWind(drawsOf({ centre: () => 8 }), calm, rng(1))[0]!.kind).toBe("noLoad");
  });
});

describe("the chance that it is held", () => {
  const rig = rigOf();
  const centre = endAt(rig).ln + 0.3;

  it("is the mean over the error of the load where nothing else is unknown, its band that of the load", () => {
    const point = inWind(drawsOf({ centre: () => centre, angle: -0.04 }));
    const at = (z: number): number => {
      const { ln, degrees } = endAt(rig, z);
      return above(ln, centre - 0.04 * (degrees - 5));
    };
    // Four errors of a mean of 1000 draws whose deviation is about 0.09.
    expect(SPREAD).toBeGreaterThan(0.03);
    expect(Math.abs(point.chance - mean(at))).toBeLessThan(0.012);
    // A quantile of a thousand draws: some 0.08 deviations of the load's error, four times over.
    expect(Math.abs(point.low - at(1.96))).toBeLessThan(Math.abs(at(1.96) - at(1.6)));
    expect(Math.abs(point.high - at(-1.96))).toBeLessThan(Math.abs(at(-1.96) - at(-1.6)));
    expect(point.shares).toEqual({ windLoad: 1, angle: expect.closeTo(0, 12), holding: expect.closeTo(0, 12) });
    expect(point).toMatchObject({ wind: WIND, peak });
    // The table of 25 loads is straight between them.
    expect(point.anchorLoad).toBeCloseTo(Math.exp(endAt(rig).ln), 0);
    expect(point.anchorAngle.value / DEGREE).toBeCloseTo(endAt(rig).degrees, 1);
    expect(point.anchorAngle.u).toBe(0);
  });

  it("has the anchor, the seabed and the mass asked about in it", () => {
    const held = drawsOf({ centre: () => centre, mass: 0.9 });
    const expected = (more: number): number => mean((z) => above(endAt(rig, z).ln, centre + more));
    for (const [more, by] of [
      [{ anchor: "B" }, 0.4],
      [{ seabed: "sand" }, 0.1],
      [{ seabed: "mud" }, -0.1],
      [{ seabed: "rock" }, 0],
      [{ mass: 30 }, 0.9 * Math.log(2)],
      [{ anchor: "C" }, 0],
    ] as const)
      expect(Math.abs(inWind(held, more).chance - expected(by)), JSON.stringify(more)).toBeLessThan(0.012);
  });

  it("counts the angle from the bottom, and says where it lies beyond those pulled at", () => {
    const sloped = rigOf("", ", bottomSlope: 4 deg");
    const { degrees } = endAt(sloped);
    const [least, most] = [(degrees - 0.5) * DEGREE, (degrees + 0.5) * DEGREE];
    const of = (angles?: readonly [number, number]) => inWind(drawsOf({ centre: () => centre }), { angles }, sloped);
    expect(of().anchorAngle.value / DEGREE).toBeCloseTo(degrees, 1);
    expect(of().beyondAngles).toBe(false);
    expect(of([least, most]).beyondAngles).toBe(false);
    expect(of([most, 2 * most]).beyondAngles).toBe(true);
    expect(of([least / 2, least]).beyondAngles).toBe(true);
  });

  it("has a share of its band for each that is unknown: by their variances", () => {
    // Holding known to so much, drawn evenly at the normal's own quantiles: ± d with equal chance has deviation d.
    const d = 0.1;
    const point = inWind(drawsOf({ centre: (s) => centre + (s % 2 === 0 ? d : -d) }));
    const share = SPREAD ** 2 / (SPREAD ** 2 + d ** 2);
    // Of a variance of a thousand draws: five errors of some 4.5 %.
    expect(Math.abs(point.shares.windLoad / share - 1)).toBeLessThan(0.25 * (1 - share) + 0.03);
    expect(point.shares.holding).toBeCloseTo(1 - point.shares.windLoad, 12);
    expect(point.shares.angle).toBeCloseTo(0, 12);
  });

  it("moves by the angle's own error as the slope says", () => {
    const unsure = rigOf("uncertainty: { rise: 0.5 m }\n");
    const uAngle = certaintyOf(unsure, { at: "bow", newtons: peak.value })!.anchorAngle;
    expect(uAngle).toBeGreaterThan(0.2 * DEGREE);
    const slope = -0.1;
    const point = inWind(drawsOf({ centre: () => centre, angle: slope }), {}, unsure);
    expect(point.anchorAngle.u).toBe(uAngle);
    const { degrees } = endAt(unsure);
    const at = (byLoad: number, byAngle: number): number => {
      const end = endAt(unsure, byLoad);
      return above(end.ln, centre + slope * (end.degrees + (byAngle * uAngle) / DEGREE - 5));
    };
    const variance = (f: (z: number) => number): number => mean((z) => f(z) ** 2) - mean(f) ** 2;
    const [ofLoad, ofAngle] = [variance((z) => at(z, 0)), variance((z) => at(0, z))];
    expect(degrees).toBeGreaterThan(2);
    expect(Math.abs(point.shares.angle - ofAngle / (ofLoad + ofAngle))).toBeLessThan(0.08);
    expect(point.shares.holding).toBeCloseTo(0, 12);
  });

  it("is told by draws of any length: thinned evenly, or drawn on again", () => {
    // Three in four hold all, the others nothing.
    const of = (length: number) =>
      inWind(drawsOf({ centre: (s) => (s % 4 === 0 ? -20 : 40), spread: 0, scatter: 0.01 }, length)).chance;
    expect(of(4)).toBeCloseTo(0.75, 9);
    expect(of(4000)).toBeCloseTo(0, 9);
    expect(of(3000)).toBeCloseTo(0.75, 2);
  });
});
