/** The boat on her rode, wind and sea in time, and the ends of a moving rode: each formula worked out here for cases set by hand. */
import { describe, expect, it } from "vitest";
import { boatBow, hullInWaves, LEAD, SHIFT } from "../../src/motion/boat-bow.ts";
import { type Bow, bodyBow, ledBow } from "../../src/motion/bow.ts";
import { type BowInWaves, bowInWaves, wavesAtTime } from "../../src/motion/bow-in-waves.ts";
import {
  ANCHOR_ANGLE,
  ANCHOR_LIFTED,
  ANCHOR_TENSION,
  BOW_ANGLE,
  BOW_TENSION,
  END_SLOTS,
  endForces,
  generalisedAlpha,
  type RodeState,
} from "../../src/motion/index.ts";
import { type WindInTime, windAtTime, windInTime } from "../../src/motion/wind-in-time.ts";
import {
  bodyDraughtOf,
  currentForce,
  elevationDensity,
  inertiaOf,
  piersonMoskowitz,
  readBoat,
  surgeTransfer,
  USUAL_AIR,
  waterlineOf,
  waveNumber,
  windForce,
  windVariance,
} from "../../src/sea/index.ts";
import { rng } from "../../src/statistics/index.ts";

const boat = readBoat(
  `format: rodebench/boat@1
name: invented
length: 12 m
waterline: 10 m
beam: 3.6 m
draught: 1.8 m
bodyDraught: 0.6 m
displacement: 7000 kg
bowRollerHeight: 1.3 m
windage: { shapes: [hull: { freeboard: 1.2 m }, mast: { thickness: 140 mm, chord: 210 mm, foot: 1.7 m, top: 16 m }] }
`,
  "boat",
);
const DENSITY = 1025;
const still: WindInTime = { turns: [{ time: 0, speed: 0, toward: 0 }], gusts: null, shortest: 1 };
const blowing = (speed: number, toward: number): WindInTime => ({
  turns: [{ time: 0, speed, toward }],
  gusts: null,
  shortest: 1,
});
const bowOf = (wind: WindInTime, current = 0, waves: BowInWaves | null = null) =>
  boatBow({ boat, air: USUAL_AIR, wind, waves, roller: 7.3, depth: 6, waterDensity: DENSITY, current });
const calm = readBoat(
  `format: rodebench/boat@1
name: bare
length: 12 m
waterline: 10 m
beam: 3.6 m
draught: 1.8 m
bodyDraught: 0.6 m
displacement: 7000 kg
bowRollerHeight: 1.3 m
`,
  "boat",
);
const bareBow = (current = 0) =>
  boatBow({
    boat: calm,
    air: USUAL_AIR,
    wind: still,
    waves: null,
    roller: 7.3,
    depth: 6,
    waterDensity: DENSITY,
    current,
  });
function forceOf(bow: Bow, q: readonly number[], rate: readonly number[], t = 0): [number, number, number] {
  const out = new Float64Array(3);
  bow.force(
    Float64Array.from(q),
    Float64Array.from(rate),
    Float64Array.of(t),
    out,
    new Float64Array(9),
    new Float64Array(9),
  );
  return [out[0]!, out[1]!, out[2]!];
}
const inertia = inertiaOf(boat, DENSITY);
const [mx, my, turning] = [inertia.surge.value, inertia.sway.value, inertia.yaw.value];
const water = { waterDensity: DENSITY, viscosity: 1.19e-6, depth: 6 };
const ahead = currentForce(boat, 1, 0, water).along;
const abeam = currentForce(boat, 1, Math.PI / 2, water).across;

describe("the boat at her anchor", () => {
  it("has her bow half her length ahead of her middle, and its speed by that of middle and turn", () => {
    const bow = bowOf(still);
    expect(bow.reach).toBe(6);
    const t = Float64Array.of(0);
    const at = (q: readonly number[]) => {
      const [p, drift, byQ] = [new Float64Array(3), new Float64Array(3), new Float64Array(9).fill(9)];
      bow.place(Float64Array.from(q), t, p, drift, byQ);
      return { p, drift, byQ };
    };
    // Looking at −x, and a quarter turn on at −y.
    expect([...at([50, 3, 0]).p]).toEqual([44, 3, 7.3]);
    expect([...at([50, 3, Math.PI / 2]).p]).toEqual([expect.closeTo(50, 12), -3, 7.3]);
    const q = [50, 3, 0.4];
    const here = at(q);
    expect([...here.drift]).toEqual([0, 0, 0]);
    for (let k = 0; k < 3; k++) {
      const moved = at(q.map((x, i) => (i === k ? x + 1e-6 : x)));
      for (let r = 0; r < 3; r++) expect(here.byQ[3 * r + k]).toBeCloseTo((moved.p[r]! - here.p[r]!) / 1e-6, 4);
    }
  });

  it("has her mass ahead and abeam turned with her, and that of turning", () => {
    expect(my).toBeGreaterThan(mx);
    const of = (heading: number) => {
      const out = new Float64Array(9).fill(9);
      bowOf(still).inertia(Float64Array.of(0, 0, heading), out);
      return Array.from(out, (x) => x + 0);
    };
    expect(of(0)).toEqual([mx, 0, 0, 0, my, 0, 0, 0, turning]);
    expect(of(Math.PI / 2).map((x) => Math.round(x * 1e6) + 0)).toEqual(
      [my, 0, 0, 0, mx, 0, 0, 0, turning].map((x) => Math.round(x * 1e6)),
    );
    // Half-way between: half of both, and what couples them ahead-to-port.
    const [xx, xy, , yx, yy] = of(Math.PI / 4);
    expect([xx, yy]).toEqual([expect.closeTo((mx + my) / 2, 6), expect.closeTo((mx + my) / 2, 6)]);
    expect([xy, yx]).toEqual([expect.closeTo((mx - my) / 2, 6), expect.closeTo((mx - my) / 2, 6)]);
  });

  it("is held back by the square of her speed, ahead and in strips abeam", () => {
    const bow = bareBow();
    // Ahead is −x, so that running ahead is held back toward +x.
    expect(forceOf(bow, [0, 0, 0], [-0.7, 0, 0])).toEqual([
      expect.closeTo(ahead * 0.49, 9),
      expect.closeTo(0, 9),
      expect.closeTo(0, 9),
    ]);
    expect(forceOf(bow, [0, 0, 0], [0.7, 0, 0])[0]).toBeCloseTo(-ahead * 0.49, 9);
    expect(forceOf(bow, [0, 0, 0], [0, 0.5, 0])).toEqual([
      expect.closeTo(0, 9),
      expect.closeTo(-abeam * 0.25, 9),
      expect.closeTo(0, 9),
    ]);
    // Turning alone, nine strips of 10/9 m: each by its own speed, on its own arm.
    const r = 0.2;
    let turn = 0;
    for (let k = -4; k <= 4; k++) {
      const x = (10 / 9) * k;
      turn -= (abeam / 9) * Math.abs(x * r) * (x * r) * x;
    }
    const [fx, fy, n] = forceOf(bow, [0, 0, 0], [0, 0, r]);
    expect([fx, fy]).toEqual([expect.closeTo(0, 9), expect.closeTo(0, 9)]);
    expect(n).toBeCloseTo(turn, 9);
  });

  it("going ahead and aside at once is lifted like a wing and turned by Munk's moment", () => {
    // u ahead (−x), v to port (−y).
    const [u, v] = [0.8, 0.3];
    const [fx, fy, n] = forceOf(bareBow(), [0, 0, 0], [-u, -v, 0]);
    const wing = 0.5 * Math.PI * DENSITY * 1.8 ** 2 * u;
    expect(-fx).toBeCloseTo(-ahead * u * u, 6);
    expect(-fy).toBeCloseTo(-abeam * v * v - wing * v, 6);
    expect(n).toBeCloseTo(-(my - mx) * u * v, 6);
    // Turning as well, Kirchhoff's terms: (m_y − m_x) v r ahead, (m_y − m_x) u r to port, beside the strips'.
    const r = 0.1;
    const turned = forceOf(bareBow(), [0, 0, 0], [-u, -v, r]);
    let strips = 0;
    for (let k = -4; k <= 4; k++) {
      const w = v + (10 / 9) * k * r;
      strips -= (abeam / 9) * Math.abs(w) * w;
    }
    expect(-turned[0]).toBeCloseTo(-ahead * u * u + (my - mx) * v * r, 6);
    expect(-turned[1]).toBeCloseTo(strips - wing * v + (my - mx) * u * r, 6);
  });

  it("is blown back from ahead, and aside from abeam at the arm assumed", () => {
    const head = windForce(boat, 12, 0, USUAL_AIR);
    expect(forceOf(bowOf(blowing(12, 0)), [0, 0, 0], [0, 0, 0])).toEqual([
      expect.closeTo(head.along, 6),
      0,
      expect.closeTo(0, 9),
    ]);
    // From port, blowing to +y: set to starboard, her bow turned away from it.
    const side = windForce(boat, 12, Math.PI / 2, USUAL_AIR).across;
    const [fx, fy, n] = forceOf(bowOf(blowing(12, Math.PI / 2)), [0, 0, 0], [0, 0, 0]);
    expect(Math.abs(fx)).toBeLessThan(1e-3 * side);
    expect(fy).toBeCloseTo(side, 6);
    expect(n).toBeCloseTo(-side * 12 * LEAD, 6);
    const other = forceOf(bowOf(blowing(12, -Math.PI / 2)), [0, 0, 0], [0, 0, 0]);
    expect([other[1], other[2]]).toEqual([expect.closeTo(-fy, 6), expect.closeTo(-n, 6)]);
    // A quarter off the bow: half-way to the share ahead of abeam.
    const off = windForce(boat, 12, Math.PI / 4, USUAL_AIR);
    const quarter = forceOf(bowOf(blowing(12, Math.PI / 4)), [0, 0, 0], [0, 0, 0]);
    expect(quarter[0]).toBeCloseTo(off.along, 4);
    expect(quarter[1]).toBeCloseTo(off.across, 4);
    expect(quarter[2]).toBeCloseTo(-off.across * 12 * (LEAD + SHIFT / 2), 3);
  });

  it("feels the wind past her: twice the wind is the wind and as much way into it", () => {
    const way = forceOf(bowOf(blowing(6, 0)), [0, 0, 0], [-1.2, 0, 0]);
    const free = forceOf(bareBow(), [0, 0, 0], [-1.2, 0, 0]);
    expect(way[0] - free[0]).toBeCloseTo(windForce(boat, 7.2, 0, USUAL_AIR).along, 6);
  });

  it("turned with wind and way by any angle, has her forces turned by it", () => {
    const [wind, by] = [11, 0.83];
    const rate = [-0.4, 0.25, 0.06];
    const one = forceOf(bowOf(blowing(wind, 0.35)), [3, 4, 0.2], rate);
    const [c, s] = [Math.cos(by), Math.sin(by)];
    const other = forceOf(
      bowOf(blowing(wind, 0.35 + by)),
      [3, 4, 0.2 + by],
      [c * rate[0]! - s * rate[1]!, s * rate[0]! + c * rate[1]!, rate[2]!],
    );
    expect(other[0]).toBeCloseTo(c * one[0] - s * one[1], 6);
    expect(other[1]).toBeCloseTo(s * one[0] + c * one[1], 6);
    expect(other[2]).toBeCloseTo(one[2], 6);
    expect(Math.abs(one[2])).toBeGreaterThan(1);
  });

  it("at rest in a current is as she is running against still water", () => {
    const at = forceOf(bareBow(0.9), [0, 0, 0.3], [0, 0, 0.05]);
    const running = forceOf(bareBow(), [0, 0, 0.3], [-0.9, 0, 0.05]);
    for (let i = 0; i < 3; i++) expect(at[i]).toBeCloseTo(running[i]!, 9);
  });

  it("is asked for damping that is how her resistance grows with speed", () => {
    const damping = new Float64Array(9);
    const rate = Float64Array.of(-0.6, 0, 0);
    bareBow().force(
      Float64Array.of(0, 0, 0),
      rate,
      Float64Array.of(0),
      new Float64Array(3),
      damping,
      new Float64Array(9),
    );
    const wing = 0.5 * Math.PI * DENSITY * 1.8 ** 2 * 0.6;
    expect(damping[0]).toBeCloseTo(2 * ahead * 0.6, 9);
    expect(damping[4]).toBeCloseTo(wing, 6);
    expect([damping[1], damping[3]]).toEqual([expect.closeTo(0, 9), expect.closeTo(0, 9)]);
    expect(hullInWaves(boat)).toEqual({
      waterline: waterlineOf(boat).value,
      draught: bodyDraughtOf(boat).value,
      reach: 6,
    });
  });
});

describe("a sea at the bow", () => {
  const one = (over: Partial<Record<"surge" | "heaveCos" | "heaveSin", number>>): BowInWaves => ({
    count: 1,
    omega: Float64Array.of(1.3),
    phase: Float64Array.of(0.4),
    surge: Float64Array.of(over.surge ?? 0),
    heaveCos: Float64Array.of(over.heaveCos ?? 0),
    heaveSin: Float64Array.of(over.heaveSin ?? 0),
  });
  const at = (waves: BowInWaves, t: number): readonly number[] => {
    const out = new Float64Array(3);
    wavesAtTime(waves, Float64Array.of(t), out);
    return [...out];
  };

  it("heaves by its cosines and sines, at their own rate, and surges a quarter period behind", () => {
    const waves = one({ surge: 0.5, heaveCos: 0.3, heaveSin: 0.2 });
    const t = 2.1;
    const angle = 1.3 * t + 0.4;
    const [acceleration, heave, rate] = at(waves, t);
    expect(heave).toBeCloseTo(0.3 * Math.cos(angle) + 0.2 * Math.sin(angle), 12);
    expect(rate).toBeCloseTo((at(waves, t + 1e-5)[1]! - at(waves, t - 1e-5)[1]!) / 2e-5, 6);
    // x = −R a sin: its second derivative by differences.
    const x = (time: number): number => -0.5 * Math.sin(1.3 * time + 0.4);
    expect(acceleration).toBeCloseTo((x(t + 1e-3) - 2 * x(t) + x(t - 1e-3)) / 1e-6, 4);
  });

  it("pushes the boat's mass, and heaves her bow above its height in still water", () => {
    const waves = one({ surge: 0.5, heaveCos: 0.3 });
    const bow = bowOf(still, 0, waves);
    const [acceleration, heave, rate] = at(waves, 1.7);
    const calm = forceOf(bowOf(still), [0, 0, 0], [0, 0, 0], 1.7);
    const pushed = forceOf(bow, [0, 0, 0], [0, 0, 0], 1.7);
    expect(pushed[0] - calm[0]).toBeCloseTo(mx * acceleration!, 6);
    const [p, drift] = [new Float64Array(3), new Float64Array(3)];
    bow.place(Float64Array.of(0, 0, 0), Float64Array.of(1.7), p, drift, new Float64Array(9));
    expect([p[2], drift[2]]).toEqual([7.3 + heave!, rate]);
    // Asked about another time, it is that time's.
    bow.place(Float64Array.of(0, 0, 0), Float64Array.of(2.6), p, drift, new Float64Array(9));
    expect(p[2]).toBeCloseTo(7.3 + at(waves, 2.6)[1]!, 12);
  });

  const sea = piersonMoskowitz(1.1, 5);
  it("has for each of its waves what a box of the hull's size does in it", () => {
    const hull = { waterline: 9, draught: 0.7, reach: 5.5 };
    const waves = bowInWaves(sea, hull, 12, rng(4));
    const tiny = bowInWaves(sea, { waterline: 1e-4, draught: 0, reach: 1 }, 12, rng(4));
    expect(waves.count).toBe(128);
    // A cork heaves as the water does: its variance is that of the sea between 0.4 and 5 times its peak.
    let variance = 0;
    const peak = (2 * Math.PI) / 5;
    const n = 20_000;
    for (let k = 0; k < n; k++) {
      const step = (4.6 * peak) / n;
      variance += elevationDensity(sea, 0.4 * peak + (k + 0.5) * step) * step;
    }
    expect(tiny.heaveCos.reduce((sum, a) => sum + (a * a) / 2, 0) / variance).toBeCloseTo(1, 3);
    for (const j of [3, 20, 70]) {
      const omega = waves.omega[j]!;
      const a = tiny.heaveCos[j]!;
      const k = waveNumber(omega, 12);
      expect(waves.surge[j]).toBeCloseTo(a * surgeTransfer(omega, 9, 0.7, 12), 9);
      // Mean of cos kx over the waterline; slope by its first moment over that of x.
      let [mean, moment, square] = [0, 0, 0];
      const parts = 4000;
      for (let i = 0; i < parts; i++) {
        const x = 9 * ((i + 0.5) / parts - 0.5);
        mean += Math.cos(k * x) / parts;
        moment += Math.sin(k * x) * x;
        square += x * x;
      }
      expect(waves.heaveCos[j]).toBeCloseTo(a * Math.exp(-k * 0.7) * mean, 6);
      expect(waves.heaveSin[j]).toBeCloseTo(a * 5.5 * (moment / square), 6);
    }
  });
});

describe("the wind over a ride", () => {
  const at = (wind: WindInTime, t: number): readonly number[] => {
    const out = new Float64Array(2);
    windAtTime(wind, Float64Array.of(t), out);
    return [...out];
  };
  const turns = [
    { time: 0, speed: 10, toward: 0.1 },
    { time: 60, speed: 20, toward: 0.5 },
    { time: 80, speed: 12, toward: 0.4 },
  ];
  it("is straight between its turns, the first before and the last after", () => {
    const wind = { turns, gusts: null, shortest: 1 };
    const of = (t: number) => at(wind, t).map((x) => Number(x.toFixed(9)));
    expect([-50, 0, 15, 60, 75, 80, 900].map(of)).toEqual([
      [10, 0.1],
      [10, 0.1],
      [12.5, 0.2],
      [20, 0.5],
      [14, 0.425],
      [12, 0.4],
      [12, 0.4],
    ]);
  });

  it("has gusts in proportion to its mean, and never blows backwards", () => {
    const record = {
      count: 1,
      omega: Float64Array.of(0.5),
      amplitude: Float64Array.of(3),
      phase: Float64Array.of(0.2),
    };
    const wind = { turns, gusts: { record, mean: 10 }, shortest: 1 };
    expect(at(wind, 0)[0]).toBeCloseTo(10 + 3 * Math.cos(0.2), 9);
    expect(at(wind, 60)[0]).toBeCloseTo(20 + 2 * 3 * Math.cos(30.2), 9);
    const wild = { ...wind, gusts: { record: { ...record, amplitude: Float64Array.of(40) }, mean: 10 } };
    expect(at(wild, 2 * Math.PI)[0]).toBe(0);
  });

  it("leaves out gusts too short to be felt over her whole length, and keeps the variance of the others", () => {
    const spectrum = { kind: "froya", wind: 8, height: 10 } as const;
    const wind = windInTime([{ time: 0, speed: 8, toward: 0 }], spectrum, 12, rng(2));
    // Two lengths at 8 m/s.
    expect(wind.shortest).toBe(3);
    const { amplitude, omega } = wind.gusts!.record;
    const variance = amplitude.reduce((sum, a) => sum + (a * a) / 2, 0);
    expect(variance / windVariance(spectrum, 1 / 3600, 1 / 3)).toBeCloseTo(1, 2);
    expect(Math.min(...omega)).toBeGreaterThanOrEqual((2 * Math.PI) / 3600);
    expect(Math.max(...omega)).toBeLessThanOrEqual((2 * Math.PI) / 3);
    expect(wind.gusts!.mean).toBe(8);
    // In a gale no gust shorter than a second; in a calm, none.
    expect(windInTime([{ time: 0, speed: 40, toward: 0 }], spectrum, 12, rng(2)).shortest).toBe(1);
    expect(windInTime([{ time: 0, speed: 0, toward: 0 }], spectrum, 12, rng(2)).gusts).toBeNull();
    expect(windInTime(turns, null, 12, rng(2)).gusts).toBeNull();
  });
});

describe("what the ends of a moving rode feel", () => {
  const ends = (anchor: readonly number[], bow: readonly number[], slope = 0): Float64Array => {
    const state = {
      force: Float64Array.from([...anchor, 0, 0, 0, ...bow]),
      elements: { count: 2 },
      around: { cosSlope: Math.cos(slope), sinSlope: Math.sin(slope) },
    } as unknown as RodeState;
    const out = new Float64Array(END_SLOTS);
    endForces(state, out);
    return out;
  };
  it("off the bottom: tension and angle of the pull there; at the bow, how it slopes down", () => {
    const out = ends([300, 0, 400], [-600, 0, -800]);
    expect([out[ANCHOR_TENSION], out[ANCHOR_LIFTED], out[BOW_TENSION]]).toEqual([500, 1, 1000]);
    expect(out[ANCHOR_ANGLE]).toBeCloseTo(Math.atan2(4, 3), 12);
    expect(out[BOW_ANGLE]).toBeCloseTo(Math.atan2(8, 6), 12);
    // Sideways counts as level.
    const aside = ends([0, 300, 400], [0, -600, -800]);
    expect([aside[ANCHOR_TENSION], aside[BOW_TENSION]]).toEqual([500, 1000]);
    expect(aside[ANCHOR_ANGLE]).toBeCloseTo(Math.atan2(4, 3), 12);
  });
  it("on the bottom: what pulls along it, at no angle; from a slope, by the slope", () => {
    const out = ends([300, 400, -50], [-1, 0, 0]);
    expect([out[ANCHOR_TENSION], out[ANCHOR_ANGLE], out[ANCHOR_LIFTED]]).toEqual([500, 0, 0]);
    // A level pull over a bottom that rises by 0.1 presses down; over one that falls it lifts.
    expect(ends([500, 0, 0], [0, 0, 0], 0.1)[ANCHOR_LIFTED]).toBe(0);
    expect(ends([500, 0, 0], [0, 0, 0], 0.1)[ANCHOR_TENSION]).toBeCloseTo(500 * Math.cos(0.1), 9);
    const falling = ends([500, 0, 0], [0, 0, 0], -0.1);
    expect([falling[ANCHOR_LIFTED], falling[ANCHOR_TENSION]]).toEqual([1, expect.closeTo(500, 9)]);
    expect(falling[ANCHOR_ANGLE]).toBeCloseTo(0.1, 12);
  });
});

describe("ends of a rode", () => {
  it("led follow their path; a body has its own mass, and its damping taken off its force", () => {
    const t = Float64Array.of(2);
    const led = ledBow((time, place, speed, acceleration) => {
      place.set([time, 2 * time, 3]);
      speed.set([1, 2, 0]);
      acceleration.set([0.5, 0, 0]);
    });
    const [q, rate, acceleration] = [new Float64Array(3), new Float64Array(3), new Float64Array(3)];
    led.path(t, q, rate, acceleration);
    expect([led.led, ...q, ...rate, ...acceleration]).toEqual([true, 2, 4, 3, 1, 2, 0, 0.5, 0, 0]);
    const [out, damping, stiffness] = [
      new Float64Array(3).fill(7),
      new Float64Array(9).fill(7),
      new Float64Array(9).fill(7),
    ];
    led.force(q, rate, t, out, damping, stiffness);
    expect([...out, ...damping, ...stiffness].every((x) => x === 0)).toBe(true);
    const body = bodyBow({
      mass: [50, 60, Number.POSITIVE_INFINITY],
      damping: 4,
      force: (_q, _rate, time, into) => into.set([10 * time, 0, -5]),
    });
    body.force(q, rate, t, out.fill(7), damping.fill(7), stiffness.fill(7));
    expect([body.led, ...out]).toEqual([false, 20 - 4, -8, -5]);
    expect([...damping]).toEqual([4, 0, 0, 0, 4, 0, 0, 0, 4]);
    expect([...stiffness].every((x) => x === 0)).toBe(true);
    const inertiaOut = new Float64Array(9).fill(7);
    body.inertia(q, inertiaOut);
    expect([inertiaOut[0], inertiaOut[4], inertiaOut[1]]).toEqual([50, 60, 0]);
    // What is held moves by nothing that could be seen: a tonne of force for an hour, less than a hair.
    expect((1e4 * 3600 ** 2) / inertiaOut[8]!).toBeLessThan(1e-3);
    const [p, drift, byQ] = [new Float64Array(3), new Float64Array(3).fill(7), new Float64Array(9).fill(7)];
    body.place(q, t, p, drift, byQ);
    expect([...p, ...drift, ...byQ]).toEqual([2, 4, 3, 0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0, 1]);
  });
});

describe("the method of the step", () => {
  it.each([
    // By hand: (2ρ − 1)/(ρ + 1), ρ/(ρ + 1), ¼(1 − α_m + α_f)², ½ − α_m + α_f.
    [0, -1, 0, 1, 1.5],
    [1, 0.5, 0.5, 0.25, 0.5],
    [0.5, 0, 1 / 3, 4 / 9, 5 / 6],
  ])("for a spectral radius of %s", (radius, alphaM, alphaF, beta, gamma) => {
    expect(generalisedAlpha(radius)).toEqual({
      alphaM: expect.closeTo(alphaM, 12),
      alphaF: expect.closeTo(alphaF, 12),
      beta: expect.closeTo(beta, 12),
      gamma: expect.closeTo(gamma, 12),
    });
  });
});
