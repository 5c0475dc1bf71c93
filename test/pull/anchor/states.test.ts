/** The filter of the fix's error, and the states solved for with it, against the dense normal law written out. */
import { describe, expect, it } from "vitest";
import { chanceMoved } from "../../../src/pull/anchor/chance-moved.ts";
import { constantStates } from "../../../src/pull/anchor/constant-states.ts";
import { whitenerOf } from "../../../src/pull/anchor/fix-error.ts";
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
    expect(chanceMoved({ value, u }, over)).toBeCloseTo(summed(value, u, over), 4);
  });
  it("is nothing far below zero and certain far above", () => {
    expect(chanceMoved({ value: -50, u: 1 }, 1)).toBe(0);
    expect(chanceMoved({ value: 400, u: 0.01 }, 1)).toBe(1);
  });
});
