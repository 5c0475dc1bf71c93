import { describe, expect, it } from "vitest";
import { fittedCertainty, judge, type Run, reduce, reduceFields, theoryCurve } from "../../../src/pull/index.ts";
import { endForcesOf, perturbed, type Rig, settle } from "../../../src/rode/index.ts";
import { median, rng, standardDeviation } from "../../../src/statistics/index.ts";
import { judgementWords, wordedJudgement } from "../../../src/words/index.ts";
import { given } from "./demo.ts";

const degree = Math.PI / 180;
const U = { load: 8, angle: 0.4 * degree, movement: 0.004, gaugeZero: 0.5 * degree };

const { rig } = given(`format: rodebench/run@1
rig:
  format: rodebench/rig@1
  name: Rig
  setting: { medium: air, rise: 7.4 m }
  rode: [{ line: { length: 26 m, massPerLength: 1.4 kg/m, density: 7850 kg/m3 } }]
  uncertainty: { massPerLength: 3 %, rise: 0.1 m }
loadCellAt: bow
readings: [{ load: 1000, angle: 5 }]
`);

interface Truth {
  mass: number;
  rise: number;
  zero: number;
  give: number;
}
const truth: Truth = { mass: 1.02, rise: 0.05, zero: 0.3 * degree, give: 3e-6 };

/** Readings of a true rig, exact, or with the noise of a seed. */
function readings(of: Truth, seed: number | null, wild: Record<number, number> = {}): Run {
  const endForces = endForcesOf(perturbed(rig, of.mass, of.rise));
  const stream = seed === null ? null : rng(seed);
  const noise = (u: number) => (stream === null ? 0 : u * stream.normal());
  const at = (load: number) => endForces({ at: "bow", newtons: load })!;
  const up = [750, 850, 1000, 1250, 1500, 2000, 2500];
  const down = [2600, 2200, 1800, 1400, 1100, 900, 750, 600];
  const moved = (load: number) => at(2600).span - at(load).span + of.give * (2600 - load);
  return {
    name: "made",
    loadCellAt: "bow",
    angleAt: "anchor",
    uncertainty: U,
    readings: up.map((load) => ({
      load,
      angle: at(load + noise(U.load)).anchorAngle + of.zero + noise(U.angle) + (wild[load] ?? 0),
      liftoff: false,
    })),
    release: down.map((load, i) => ({ load, movement: i === 0 ? 0 : moved(load + noise(U.load)) + noise(U.movement) })),
  };
}

const valuesOf = (run: Run) => {
  const { fitted } = reduce(run, rig);
  return [
    { ...fitted.massPerLength!, truth: 1.4 * truth.mass },
    { ...fitted.rise!, truth: 7.4 + truth.rise },
    { ...fitted.gaugeZero!, truth: truth.zero },
    { ...fitted.rigGive!, truth: truth.give },
  ];
};

describe("reduce", () => {
  it("leaves no residual on exact readings of the rig as stated", () => {
    const exact = reduce(readings({ mass: 1, rise: 0, zero: 0, give: 0 }, null), rig);
    for (const row of [...exact.readings, ...exact.release]) expect(Math.abs(row.residual)).toBeLessThan(1e-4);
    expect(exact.fitted.massPerLength!.value).toBeCloseTo(1.4, 5);
    expect(exact.fitted.rise!.value).toBeCloseTo(7.4, 4);
    expect(Math.abs(exact.fitted.rigGive!.value)).toBeLessThan(1e-9);
    expect(exact.readings.some((row) => row.outlier)).toBe(false);
  });

  it("finds what was put into noisy readings, within the ± it states, over 60 runs", () => {
    const runs = Array.from({ length: 60 }, (_, seed) => valuesOf(readings(truth, seed + 1)));
    for (const i of [0, 1, 2, 3]) {
      const pulls = runs.map((values) => (values[i]!.value - values[i]!.truth) / values[i]!.u);
      // Of 60 draws from a standard normal the mean lies within 0.5 of 0 but once in 9000, and within 0.7 … 1.3 lies
      // their spread but once in 1000. Priors draw mass, rise and zero toward what was stated: their spread is less, and
      // the mean may be off by what the prior pulls, at most (truth − prior)/prior u ≈ 0.7.
      expect(Math.abs(pulls.reduce((a, b) => a + b) / 60), `unknown ${i}`).toBeLessThan(0.75);
      expect(standardDeviation(pulls), `unknown ${i}`).toBeLessThan(1.35);
    }
  });

  it("cannot be carried off by a wild reading, and flags it", () => {
    const quiet = reduce(readings(truth, 7), rig);
    const wild = reduce(readings(truth, 7, { 1250: -6 * degree }), rig);
    expect(wild.readings.filter((row) => row.outlier).map((row) => row.load)).toEqual([1250]);
    const row = wild.readings.find((one) => one.load === 1250)!;
    expect(row.weight).toBeLessThan(0.01);
    expect(row.influence).toBeGreaterThan(quiet.readings.find((one) => one.load === 1250)!.influence);
    for (const name of ["massPerLength", "rise", "gaugeZero", "rigGive"] as const)
      expect(Math.abs(wild.fitted[name]!.value - quiet.fitted[name]!.value)).toBeLessThan(quiet.fitted[name]!.u);
  });

  it("drops nothing: every reading comes back in its place", () => {
    const run = readings(truth, 3, { 850: 8 * degree });
    const reduced = reduce(run, rig);
    expect(reduced.readings.map((row) => [row.load, row.angle])).toEqual(
      run.readings.map((row) => [row.load, row.angle]),
    );
    expect(reduced.release.map((row) => [row.load, row.movement])).toEqual(
      run.release.map((row) => [row.load, row.movement]),
    );
  });

  it("keeps what was known beforehand beside what it found", () => {
    const { beforehand, fitted } = reduce(readings(truth, 3), rig);
    expect(beforehand.massPerLength!.value).toBeCloseTo(1.4, 12);
    expect(beforehand.massPerLength!.u).toBeCloseTo(0.042, 12);
    expect(beforehand.rise).toEqual({ value: 7.4, u: 0.1 });
    expect(beforehand.gaugeZero!.u).toBeCloseTo(0.5 * degree, 12);
    expect(beforehand.rigGive).toBeNull();
    expect(fitted.massPerLength!.u).toBeLessThan(0.042);
  });

  it("fits only what the rig leaves open", () => {
    const sure: Rig = { ...rig, uncertainty: {} };
    const { fitted, names } = reduce({ ...readings(truth, 3), release: [] }, sure);
    expect(names).toEqual(["gauge zero"]);
    expect([fitted.massPerLength, fitted.rise, fitted.rigGive]).toEqual([null, null, null]);
  });

  it("does not mind the order of readings", () => {
    const run = readings(truth, 11);
    const turned = reduce({ ...run, readings: run.readings.toReversed() }, rig);
    // The fit ends within 1e-5 of its own standard deviations.
    expect(turned.fitted.rise!.value).toBeCloseTo(reduce(run, rig).fitted.rise!.value, 5);
  });

  it("finds the load of lift-off by theory where the closed form has it", () => {
    const { liftoff, rig: found } = reduce(readings(truth, 5), rig);
    const part = found.rode[0]!;
    if (part.kind !== "line" || found.setting.medium !== "air") throw new Error("a line in air is expected");
    const [w, L, h] = [part.massPerLength * 9.80665, part.length, found.setting.rise];
    // H = w (L² − h²)/2h at lift-off, and w h more at the top.
    expect(Math.abs(liftoff! / (w * ((L * L - h * h) / (2 * h) + h)) - 1)).toBeLessThan(1e-9);
  });

  it("says in words what it found", () => {
    const run = readings(truth, 7, { 1250: -6 * degree });
    const said = judge(run, rig, reduce(run, rig));
    expect(judgementWords(said[0]!)).toContain("theory accounts for 13 of 14 readings");
    expect(said.find((one) => one.about === "reading")!.load).toBe(1250);
    expect(
      said.filter((one) => one.about === "simplification").map((one) => judgementWords(one).split(":")[0]),
    ).toEqual(["taking the rode as straight", "taking the load read as that at the anchor"]);
  });

  it("answers in the fields of the contract", () => {
    const run = readings(truth, 7);
    const reduced = reduce(run, rig);
    const fields = JSON.parse(JSON.stringify(reduceFields(reduced, judge(run, rig, reduced).map(wordedJudgement))));
    expect(Object.keys(fields)).toEqual(expect.arrayContaining(["rows", "release", "fitted", "verdicts"]));
    expect(Object.keys(fields.rows[0])).toEqual(
      expect.arrayContaining(["load_N", "angle_deg", "theory_deg", "residual", "outlier"]),
    );
    expect(fields.fitted.massPerLength_kg_per_m.value).toBe(reduced.fitted.massPerLength!.value);
    expect(fields.rows[2].angle_deg).toBeCloseTo(run.readings[2]!.angle! / degree, 12);
  });
});

describe("theory as a curve", () => {
  const run = readings(truth, 9);
  const reduced = reduce(run, rig);
  const loads = [500, 800, 1500, 2500];
  const curve = theoryCurve(run, reduced, loads);

  it("goes through what reduce says of the loads read", () => {
    const at = theoryCurve(
      run,
      reduced,
      run.readings.map((row) => row.load),
    );
    at.forEach((point, i) => {
      expect(point.angle).toBeCloseTo(reduced.readings[i]!.theory, 10);
    });
    const back = theoryCurve(
      run,
      reduced,
      run.release.map((row) => row.load),
    );
    back.forEach((point, i) => {
      expect(point.movement).toBeCloseTo(reduced.release[i]!.theory, 10);
    });
    // The first tape reading has an error of its own, which is in all the others.
    expect(back[0]!.movement).toBe(reduced.fitted.tapeZero!.value);
    expect(back[0]!.uMovement).toBeCloseTo(reduced.fitted.tapeZero!.u, 12);
  });

  it("has the band that drawing the unknowns from their covariance gives", () => {
    // Cholesky of the correlation by hand, 400 draws: u known to 1/√800 = 3.5 %, thrice that allowed.
    const n = reduced.names.length;
    const low: number[][] = [];
    for (let i = 0; i < n; i++) {
      low.push(new Array(n).fill(0));
      for (let j = 0; j <= i; j++) {
        let sum = reduced.correlation[i]![j]!;
        for (let k = 0; k < j; k++) sum -= low[i]![k]! * low[j]![k]!;
        low[i]![j] = i === j ? Math.sqrt(sum) : sum / low[j]![j]!;
      }
    }
    const stream = rng(4);
    const { massPerLength, rise, gaugeZero } = reduced.fitted;
    const drawn: number[][] = loads.map(() => []);
    for (let draw = 0; draw < 400; draw++) {
      const z = Array.from({ length: n }, () => stream.normal());
      const x = low.map((row) => row.reduce((sum, l, k) => sum + l * z[k]!, 0));
      const by = (name: string) => x[reduced.names.indexOf(name)]!;
      const moved = endForcesOf(
        perturbed(
          reduced.rig,
          1 + (by("mass per length") * massPerLength!.u) / massPerLength!.value,
          by("rise") * rise!.u,
        ),
      );
      loads.forEach((load, i) => {
        drawn[i]!.push(
          moved({ at: "bow", newtons: load })!.anchorAngle + gaugeZero!.value + by("gauge zero") * gaugeZero!.u,
        );
      });
    }
    curve.forEach((point, i) => {
      expect(Math.abs(standardDeviation(drawn[i]!) / point.uAngle - 1), `at ${point.load} N`).toBeLessThan(0.11);
      expect(Math.abs(median(drawn[i]!) - point.angle)).toBeLessThan(0.25 * point.uAngle);
    });
  });

  it("leaves out loads that have no equilibrium", () => {
    expect(theoryCurve(run, reduced, [1, 1500]).map((point) => point.load)).toEqual([1500]);
  });

  it("knows how sure the fitted rig's equilibrium is, as the curve does without the gauge", () => {
    const pull = { at: "bow", newtons: 1500 } as const;
    const certainty = fittedCertainty(reduced, pull)!;
    // The load is exact: no ± of its own; the anchor's follows w · rise.
    expect(certainty.bowTension).toBe(0);
    const settled = settle(reduced.rig, pull);
    if (settled.kind !== "settled") throw new Error(settled.cause);
    expect(certainty.anchorAngle).toBeGreaterThan(0);
    expect(certainty.anchorAngle).toBeLessThan(curve[2]!.uAngle * 2);
    const { massPerLength, rise } = reduced.fitted;
    const r = reduced.correlation[reduced.names.indexOf("mass per length")]![reduced.names.indexOf("rise")]!;
    const [a, b] = [9.80665 * rise!.value * massPerLength!.u, 9.80665 * massPerLength!.value * rise!.u];
    // T_bow − T_anchor = w h for a lifted line of one medium: the product rule, with its correlation.
    expect(Math.abs(certainty.anchorTension / Math.sqrt(a * a + b * b + 2 * r * a * b) - 1)).toBeLessThan(1e-3);
  });
});
