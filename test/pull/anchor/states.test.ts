/** The filter of the fix's error, and the states solved for with it, against the dense normal law written out. */
import { describe, expect, it } from "vitest";
import { type ByKind, chanceMoved } from "../../../src/pull/anchor/chance-moved.ts";
import { constantStates } from "../../../src/pull/anchor/constant-states.ts";
import { whitenerOf } from "../../../src/pull/anchor/fix-error.ts";
import type { FixGrid } from "../../../src/pull/anchor/fix-grid.ts";
import { rodeGive } from "../../../src/pull/anchor/rode-give.ts";
import { StretchModel } from "../../../src/pull/anchor/stretch.ts";
import { windowsOf } from "../../../src/pull/anchor/windows.ts";
import { chanceOf } from "./chance.ts";

const there = Uint8Array.from([1, 1, 0, 1, 1, 1, 0, 0, 1, 1, 1, 1]);
const step = 2;
const white = 0.3;
const sway = { size: 0.5, time: 7 };

/** Covariances in closed form: first order, and the same through its own lag (Matérn 3/2). */
const covarianceAt = (smooth: boolean, seconds: number): number => {
  const r = seconds / 40;
  return 1.3 ** 2 * (smooth ? (1 + r) * Math.exp(-r) : Math.exp(-r)) + 0.5 ** 2 * Math.exp(-seconds / 7);
};

/** ln of the determinant, and the solution of A x = b for each b, by elimination without any of the program's help. */
function eliminate(a: number[][], bs: number[][]): { log: number; xs: number[][] } {
  const n = a.length;
  const m = a.map((row, i) => [...row, ...bs.map((b) => b[i]!)]);
  let log = 0;
  for (let i = 0; i < n; i++) {
    log += Math.log(m[i]![i]!);
    for (let j = 0; j < n; j++) {
      if (j === i) continue;
      const f = m[j]![i]! / m[i]![i]!;
      for (let k = i; k < n + bs.length; k++) m[j]![k]! -= f * m[i]![k]!;
    }
  }
  return { log, xs: bs.map((_, b) => m.map((row, i) => row[n + b]! / row[i]!)) };
}

describe.each([false, true])("the error of a fix, smooth %s", (smooth) => {
  const whitener = whitenerOf({ smooth, size: 1.3, time: 40 }, there, step, white, sway);
  const at = [...there.keys()].filter((k) => there[k] === 1);
  const dense = at.map((i) => at.map((j) => covarianceAt(smooth, step * Math.abs(i - j)) + (i === j ? white ** 2 : 0)));
  const chance = chanceOf(5);
  const y = Float64Array.from(there, () => 2 * chance.normal());
  const ramp = Float64Array.from(there, (_, k) => Math.min(1, Math.max(0, (k - 3) / 5)));

  it("is made white as the covariance in closed form says", () => {
    const own = at.map((k) => y[k]!);
    const { log, xs } = eliminate(dense, [own]);
    const w = whitener.whiten(y);
    const square = own.reduce((sum, v, i) => sum + v * xs[0]![i]!, 0);
    // Twelve steps of arithmetic in doubles.
    expect(whitener.logDeterminant).toBeCloseTo(log, 9);
    expect(w.reduce((sum, v) => sum + v * v, 0)).toBeCloseTo(square, 9);
    expect(w[2]).toBe(0);
  });

  it("is turned round by its transpose, and its power is that of what it makes", () => {
    const [w, z] = [whitener.whiten(y), Float64Array.from(there, () => chance.normal())];
    const dot = (p: Float64Array, q: Float64Array): number => p.reduce((sum, v, k) => sum + v * q[k]!, 0);
    expect(dot(y, whitener.transposed(z))).toBeCloseTo(dot(w, z), 10);
    const late = ramp.map((v, k) => (k < 4 ? 0 : v));
    expect(whitener.power(late, 4)).toBeCloseTo(dot(whitener.whiten(late), whitener.whiten(late)), 10);
  });

  it("leaves states, their ± and their likelihood those of the dense law", () => {
    const prior = [
      { column: new Float64Array(there.length).fill(1), mean: 0.5, u: 3 },
      { column: ramp, mean: 0, u: 4 },
    ];
    const got = constantStates(
      whitener.whiten(y),
      prior.map((p) => ({ ...p, column: whitener.whiten(p.column) })),
      whitener.logDeterminant,
    );
    // The places as one normal law: the states' own spread in the covariance.
    const whole = dense.map((row, i) =>
      row.map((v, j) => v + prior.reduce((sum, p) => sum + p.u ** 2 * p.column[at[i]!]! * p.column[at[j]!]!, 0)),
    );
    const off = at.map((k) => y[k]! - 0.5);
    const { log, xs } = eliminate(whole, [off, at.map((k) => ramp[k]!)]);
    const square = off.reduce((sum, v, i) => sum + v * xs[0]![i]!, 0);
    expect(got.evidence).toBeCloseTo(-0.5 * (log + square), 8);
    const value = 16 * at.reduce((sum, k, i) => sum + ramp[k]! * xs[0]![i]!, 0);
    const variance = 16 - 256 * at.reduce((sum, k, i) => sum + ramp[k]! * xs[1]![i]!, 0);
    expect(got.value[1]).toBeCloseTo(value, 8);
    expect(got.covariance[3]).toBeCloseTo(variance, 8);
  });
});

describe("the chance that an anchor moved", () => {
  const just = (value: number, u: number): ByKind => ({ stayed: 0, went: [{ value, u, inside: 1, share: 0 }] });
  /** Three in ten go, three metres in the mean: the chance density of being measured so, summed over ways beyond `over`. */
  const wentOver = (value: number, u: number, over: number): number => {
    const d = 1e-3;
    let sum = 0;
    for (let m = over + d / 2; m < 60; m += d)
      sum += 0.1 * Math.exp(-m / 3) * Math.exp(-0.5 * ((value - m) / u) ** 2) * d;
    return sum;
  };
  /** The mixture integrated by small steps: seven in ten stay, the rest go three metres in the mean. */
  const summed = (value: number, u: number, over: number): number => {
    const normal = (m: number): number => Math.exp(-0.5 * ((value - m) / u) ** 2);
    let [all, beyond] = [0.7 * normal(0), 0];
    const d = 1e-3;
    for (let m = d / 2; m < 60; m += d) {
      const part = 0.1 * Math.exp(-m / 3) * normal(m) * d;
      all += part;
      if (m > over) beyond += part;
    }
    return beyond / all;
  };
  it.each([
    [0, 0.5, 1],
    [1.2, 0.6, 1],
    [4, 1.1, 1],
    [-1, 0.4, 0.3],
    [0.4, 2.5, 1],
  ])("measured as %d ± %d m, by more than %d m, is that of the mixture summed by small steps", (value, u, over) => {
    // Steps of a millimetre.
    expect(chanceMoved([just(value, u)])(over)).toBeCloseTo(summed(value, u, over), 4);
  });
  it("is nothing far below zero and certain far above", () => {
    expect(chanceMoved([just(-50, 1)])(1)).toBe(0);
    expect(chanceMoved([just(400, 0.01)])(1)).toBe(1);
  });
  it("weighs kinds of error by how likely they make the fixes with the movement, not without it alone", () => {
    // Worked out by hand for a way of 4 m: stayed, the narrow kind is e^-3 as likely as the wide one; with a movement,
    // it is far likelier. Both kinds' shares come from the sums of the mixture.
    const kinds = [just(4, 2), { ...just(4, 0.5), stayed: -3 }];
    const parts = [
      { value: 4, u: 2, by: 1 },
      { value: 4, u: 0.5, by: Math.exp(-3) },
    ].map(({ value, u, by }) => {
      // What is common to the mixture's parts: the height of the law of one that stayed.
      const stayed = Math.exp(-0.5 * (value / u) ** 2);
      return { stay: by * 0.7, go: (by * wentOver(value, u, 0)) / stayed, far: (by * wentOver(value, u, 1)) / stayed };
    });
    const all = parts.reduce((sum, { stay, go }) => sum + stay + go, 0);
    const far = parts.reduce((sum, p) => sum + p.far, 0);
    expect(chanceMoved(kinds)(1)).toBeCloseTo(far / all, 4);
    // The wide kind alone would leave it open.
    expect(chanceMoved([kinds[0]!])(1)).toBeLessThan(0.8);
    expect(chanceMoved(kinds)(1)).toBeGreaterThan(0.99);
  });
  it("counts of a movement that began before only what lies in the time asked about", () => {
    // Half of it inside: over a metre there is over two of the whole.
    const half: ByKind = { stayed: 0, went: [{ value: 3, u: 0.6, inside: 0.5, share: 0 }] };
    expect(chanceMoved([half])(1)).toBeCloseTo(summed(3, 0.6, 2), 4);
  });
});

describe("a movement looked for beside all else", () => {
  it("is the one that the states solved together give, in every window", () => {
    const n = 60;
    const chance = chanceOf(11);
    const load = Float64Array.from({ length: n }, (_, k) => 1000 + 30 * k + 50 * chance.normal());
    const grid: FixGrid = {
      start: 0,
      step: 1,
      east: Float64Array.from({ length: n }, () => chance.normal()),
      north: Float64Array.from({ length: n }, (_, k) => chance.normal() + (k > 40 ? 2 : 0)),
      load,
      shaped: (k, shape) => shape(load[k]!),
      tight: Uint8Array.from({ length: n }, (_, k) => (k % 17 === 5 ? 0 : 1)),
      white: 0.3,
    };
    const model = new StretchModel(grid, { from: 2, to: n }, rodeGive(2800));
    const y = model.along(0);
    const found = [{ from: 12, to: 20 }];
    const rest = model.residual(7, y, found);
    const powers = model.powers(7);
    expect(model.windows.length).toBeGreaterThan(100);
    model.windows.forEach((ramp, k) => {
      const one = rest(ramp, powers[k]);
      // Too near the one found to be told apart.
      if (one.u > 5) return;
      const fitted = model.fit(7, y, [ramp, ...found]);
      const n = fitted.value.length;
      // Movements stand last, in their order.
      const i = n - 1 - found.length;
      const together = { value: fitted.value[i]!, u: Math.sqrt(fitted.covariance[i * n + i]!) };
      // Beside a movement of any size that of up to 50 m is drawn in by u² / 50².
      const drawnIn = 1 / (1 + (one.u / 50) ** 2);
      expect(together.value).toBeCloseTo(one.value * drawnIn, 8);
      expect(together.u).toBeCloseTo(one.u * Math.sqrt(drawnIn), 8);
    });
  });
  it("is likelier beforehand where the load is the highest so far", () => {
    const n = 60;
    const load = Float64Array.from({ length: n }, (_, k) => (k < 20 ? 2000 : k < 40 ? 1000 : 3000));
    const grid = { step: 1, load, tight: new Uint8Array(n).fill(1) } as unknown as FixGrid;
    const { windows, shares } = windowsOf({ grid, stretch: { from: 0, to: n } });
    const shareOf = (from: number, to: number): number =>
      Math.exp(shares[windows.findIndex((w) => w.from === from && w.to === to)]!);
    // Three seconds long: 58 beginnings. The mean of the five seconds from one on is 85 % of the 2000 N borne before, or
    // more, up to the 16th (1800 N; the 17th has 1600 N) and from the 37th on (1800 N): 38 of them, the other 20 weigh a
    // tenth. Ten of the lengths fit into a minute.
    const lengths = new Set(windows.map((w) => w.to - w.from)).size;
    expect(lengths).toBe(10);
    const each = 1 / (lengths * (38 + 2));
    expect(shareOf(3, 6)).toBeCloseTo(each, 10);
    expect(shareOf(25, 28)).toBeCloseTo(each / 10, 10);
    expect(shareOf(45, 48)).toBeCloseTo(each, 10);
    expect(shares.reduce((sum, log) => sum + Math.exp(log), 0)).toBeCloseTo(1, 10);
  });
});

describe("a rode that would give less under more load", () => {
  /** Normal law below z, by small steps from far out. */
  const below = (z: number): number => {
    let sum = 0;
    const d = 1e-4;
    for (let x = -9 + d / 2; x < z; x += d) sum += Math.exp(-0.5 * x * x) * d;
    return sum / Math.sqrt(2 * Math.PI);
  };
  // From a quarter of the highest load up to it: 1 - √1 less 1 - √4 is 1; 1 - 1/4; ln 4.
  const rises = [1, 0.75, Math.log(4)];

  it.each([1, -1])("is believed as little as the normal law of its rise lies above nothing, going %d", (way) => {
    const n = 60;
    const chance = chanceOf(3);
    const load = Float64Array.from({ length: n }, (_, k) => 400 + 40 * k);
    const grid: FixGrid = {
      start: 0,
      step: 1,
      east: new Float64Array(n),
      north: load.map((f) => (way * f) / 1500 + 0.2 * chance.normal()),
      load,
      shaped: (k, shape) => shape(load[k]!),
      tight: new Uint8Array(n).fill(1),
      white: 0.2,
    };
    const rode = rodeGive(2760);
    const stretch = { from: 0, to: n };
    const model = new StretchModel(grid, stretch, rode);
    const y = model.along(0);
    // The first kind of error: 0.4 m, first order, over 40 s.
    const w = model.whitener(0);
    const states = [{ column: new Float64Array(n).fill(1), mean: 0, u: 100 }, ...rode.states(grid, stretch)];
    const free = constantStates(
      w.whiten(y),
      states.map((s) => ({ ...s, column: w.whiten(s.column) })),
      w.logDeterminant,
    );
    const rise = rises.reduce((sum, r, i) => sum + r * free.value[i + 1]!, 0);
    const square = rises.reduce(
      (sum, r, i) => sum + rises.reduce((part, q, j) => part + r * q * free.covariance[4 * (i + 1) + j + 1]!, 0),
      0,
    );
    // Beforehand 0.7 ± 0.8 m, 0.7 ± 0.8 m and 0 ± 0.4 m: 1.225 m, its square of ± 0.64 + 0.36 + 0.16 (ln 4)².
    const before = below(1.225 / Math.sqrt(1 + 0.16 * Math.log(4) ** 2));
    const own = Math.log(below(rise / Math.sqrt(square)) / before);
    expect(model.fit(0, y, []).evidence - free.evidence).toBeCloseTo(own, 3);
    if (way > 0) expect(own).toBeGreaterThan(0);
    else expect(own).toBeLessThan(-1);
  });
});
