/** The ± of a reading about theory, and what a reduction says in words, at either side of each limit it names. */
import { describe, expect, it } from "vitest";
import { type Judgement, judge, type Reduction, type Run, reduce, reduceFields } from "../../../src/pull/index.ts";
import { type Rig, settle } from "../../../src/rode/index.ts";
import { judgementWords, wordedJudgement } from "../../../src/words/index.ts";
import { given } from "./demo.ts";

const degree = Math.PI / 180;
const degrees = 180 / Math.PI;
const text = (uncertainty: string): string => `format: rodebench/run@1
rig:
  format: rodebench/rig@1
  name: Rig
  setting: { medium: air, rise: 7.4 m }
  rode: [{ line: { length: 26 m, massPerLength: 1.4 kg/m, density: 7850 kg/m3, stiffness: 2 MN } }]
  uncertainty: { massPerLength: 3 %, rise: 0.1 m }
loadCellAt: bow
angleAt: anchor
uncertainty: ${uncertainty}
readings: [${[900, 1200, 1600, 2200, 2600].map((load) => `{ load: ${load} N, angle: ${angleAt(load) / degree} deg }`)}]
release: [${[2600, 2200, 1800, 1400, 1000].map((load) => `{ load: ${load} N, movement: ${spanAt(2600) - spanAt(load)} m }`)}]
`;
const bare: Rig = {
  name: "Rig",
  setting: { medium: "air", rise: 7.4, bottomSlope: 0, bottomFriction: 0 },
  rode: [
    {
      kind: "line",
      name: "line",
      length: 26,
      massPerLength: 1.4,
      density: 7850,
      stretch: { kind: "linear", stiffness: 2e6 },
    },
  ],
  uncertainty: { massPerLength: 0.03, rise: 0.1 },
};
function at(load: number) {
  const answer = settle(bare, { at: "bow", newtons: load });
  if (answer.kind !== "settled") throw new Error(answer.cause);
  return answer;
}
function angleAt(load: number): number {
  return at(load).anchor.angle;
}
function spanAt(load: number): number {
  return at(load).span;
}
const slope = (f: (load: number) => number, load: number): number => (f(load + 1) - f(load - 1)) / 2;

describe("the uncertainty of a reading about theory", () => {
  it.each([
    ["as stated", "{ load: 25 N, angle: 0.3 deg, movement: 4 mm }", () => 25, 0.3 * degree, 0.004],
    // What a hand-held gauge and a tape are worth, as docs/reduce.md says.
    [
      "unstated: half a degree, 5 mm, a hundredth of the load",
      "{}",
      (load: number) => 0.01 * load,
      0.5 * degree,
      0.005,
    ],
  ] as const)(
    "%s: its own, and that of its load through the slope of the curve",
    (_, stated, ofLoad, ofAngle, ofMove) => {
      const { run, rig } = given(text(stated));
      const reduced = reduce(run, rig);
      // Slopes by differences of a newton; the program's by a thousandth of the load: 1e-4.
      for (const row of reduced.readings)
        expect(row.u / Math.hypot(ofAngle, slope(angleAt, row.load) * ofLoad(row.load))).toBeCloseTo(1, 3);
      // The first row too: what it was off is in every movement alike.
      for (const row of reduced.release)
        expect(row.u / Math.hypot(ofMove, slope(spanAt, row.load) * ofLoad(row.load))).toBeCloseTo(1, 3);
    },
  );
});

const { run, rig } = given(text("{ load: 25 N, angle: 0.3 deg, movement: 4 mm }"));
const reduced = reduce(run, rig);
const says = (over: Partial<Reduction>, of: Run = run, about: Rig = rig): Judgement[] =>
  judge(of, about, { ...reduced, ...over });
const unknowns = (fitted: Partial<Reduction["fitted"]>): string[] =>
  says({ fitted: { ...reduced.fitted, ...fitted } })
    .filter((one) => one.about === "unknown")
    .map(judgementWords);

describe("verdicts on unknowns", () => {
  it("the rise moved by more than twice what was stated, either way", () => {
    const said = "the rise moved by more than twice what was stated beforehand: measure it again";
    for (const by of [0.21, -0.21]) expect(unknowns({ rise: { value: 7.4 + by, u: 0.02 } })).toContain(said);
    for (const by of [0.19, -0.19]) expect(unknowns({ rise: { value: 7.4 + by, u: 0.02 } })).not.toContain(said);
  });
  it("mass per length likewise, of what a share of it is", () => {
    const said = "mass per length moved by more than twice what was stated beforehand: measure it again";
    for (const by of [0.0845, -0.0845])
      expect(unknowns({ massPerLength: { value: 1.4 + by, u: 0.005 } })).toContain(said);
    for (const by of [0.0835, -0.0835])
      expect(unknowns({ massPerLength: { value: 1.4 + by, u: 0.005 } })).not.toContain(said);
  });
  it("readings that say little of an unknown leave nine tenths of its uncertainty", () => {
    const said = "these readings say little of the rise: its value is mostly what was stated beforehand";
    expect(unknowns({ rise: { value: 7.4, u: 0.091 } })).toContain(said);
    expect(unknowns({ rise: { value: 7.4, u: 0.089 } })).not.toContain(said);
  });
  it("the gauge's zero is off by more than twice its own", () => {
    const said = "the gauge's zero is off by more than twice its uncertainty: check it against a level";
    for (const value of [2.1e-3, -2.1e-3]) expect(unknowns({ gaugeZero: { value, u: 1e-3 } })).toContain(said);
    for (const value of [1.9e-3, -1.9e-3]) expect(unknowns({ gaugeZero: { value, u: 1e-3 } })).not.toContain(said);
  });
  it("the rig gives, or would have to push back", () => {
    const gives = "the rig itself gives under load: part of the movement read is not the rode's";
    const pushes = "the rig would have to push back: the movement read is smaller than the rode's own";
    expect(unknowns({ rigGive: { value: 2.1e-6, u: 1e-6 } })).toContain(gives);
    expect(unknowns({ rigGive: { value: -2.1e-6, u: 1e-6 } })).toContain(pushes);
    for (const value of [1.9e-6, -1.9e-6]) {
      expect(unknowns({ rigGive: { value, u: 1e-6 } })).not.toContain(gives);
      expect(unknowns({ rigGive: { value, u: 1e-6 } })).not.toContain(pushes);
    }
  });
  it("what was not fitted was taken as given", () => {
    const said = unknowns({ massPerLength: null, rise: null });
    expect(said).toContain("mass per length is taken as given: the rig states no uncertainty of it");
    expect(said).toContain("the rise is taken as given: the rig states no uncertainty of it");
    expect(unknowns({}).join()).not.toContain("taken as given");
  });
});

describe("verdicts on the fit", () => {
  const ofFit = (over: Partial<Reduction>): string => judgementWords(says(over).find((one) => one.about === "fit")!);
  const residuals = (size: number): Partial<Reduction> => ({
    readings: reduced.readings.map((row, i) => ({ ...row, residual: i % 2 === 0 ? size : -size })),
    release: reduced.release.map((row, i) => ({ ...row, residual: i % 2 === 0 ? size : -size })),
    scatter: 1,
  });
  it("counts the readings it accounts for, the first row of a release being none", () => {
    expect(ofFit({})).toMatch(/^theory accounts for 9 of 9 readings; /);
    const outlying = reduced.readings.map((row, i) => ({ ...row, outlier: i === 1 }));
    expect(ofFit({ readings: outlying })).toMatch(/^theory accounts for 8 of 9 readings; /);
  });
  it("says whether they scatter as they should", () => {
    expect(ofFit({ ...residuals(1), scatter: 1.6, spread: { kind: "more", ratio: 1.6 } })).toContain(
      "1.6 times more than their stated",
    );
    expect(ofFit({ ...residuals(1), spread: { kind: "asStated", ratio: 1.4 } })).toContain("about as their stated");
    expect(ofFit({ ...residuals(0.39), spread: { kind: "less", ratio: 0.4 } })).toContain(
      "less than their stated uncertainties, which may be too generous",
    );
    expect(ofFit({ spread: { kind: "tooFew" } })).toContain("too few to say whether they scatter as stated");
  });
  it("past three times as stated theory does not account for them, and only what agrees as stated is counted", () => {
    const readings = reduced.readings.map((row, i) => ({ ...row, standardised: i === 0 ? 0.1 : 1 }));
    const wide = { readings, scatter: 10, outlierBeyond: 25.9, spread: { kind: "more", ratio: 10 } } as const;
    const agree = 1 + reduced.release.length - 1;
    expect(ofFit(wide)).toContain(`theory does not account for these readings: ${agree} of 9 readings agree with it`);
    expect(ofFit({ ...wide, scatter: 2.9, outlierBeyond: 7.5 })).toContain("theory accounts for");
  });
  it("says which way an outlier lies, and whether rode rests there", () => {
    const one = (over: object): string =>
      judgementWords(
        says({ readings: reduced.readings.map((row, i) => (i === 1 ? { ...row, outlier: true, ...over } : row)) }).find(
          (verdict) => verdict.about === "reading",
        )!,
      );
    expect(one({ residual: 4.2 })).toMatch(/^the angle is 4\.2 standard uncertainties above theory/);
    expect(one({ residual: -4.2 })).toMatch(/^the angle is 4\.2 standard uncertainties below theory/);
    expect(one({ residual: 4, resting: false })).toContain("no cause shows in the rig");
    expect(one({ residual: 4, resting: true })).toMatch(/rests on the ground here$/);
    const moved = says({
      release: reduced.release.map((row, i) => (i === 2 ? { ...row, outlier: true, residual: 3, resting: true } : row)),
    }).find((verdict) => verdict.about === "release")!;
    expect(moved.load).toBe(1800);
    expect(judgementWords(moved)).toMatch(/^the movement is 3\.0 .* may stick/);
  });
});

describe("short cuts at the loads read", () => {
  it("are measured by the angle at the anchor they change, against the gauge", () => {
    const said = says({ rig: bare }).filter((one) => one.about === "simplification");
    expect(said.map((one) => judgementWords(one).split(":")[0])).toEqual([
      "taking the rode as straight",
      "taking the load read as that at the anchor",
      "leaving out stretch",
    ]);
    const loads = reduced.readings.map((row) => row.load);
    const worst = (angle: (load: number) => number) =>
      loads
        .map((load) => [load, Math.abs(angle(load) - angleAt(load))] as const)
        .reduce((a, b) => (b[1] > a[1] ? b : a));
    const other = (rigOf: Rig, end: "anchor" | "bow") => (load: number) => {
      const answer = settle(rigOf, { at: end, newtons: load });
      if (answer.kind !== "settled") throw new Error(answer.cause);
      return answer.anchor.angle;
    };
    const rigid: Rig = { ...bare, rode: bare.rode.map((part) => ({ ...part, stretch: { kind: "rigid" } }) as never) };
    const again = [worst(() => Math.asin(7.4 / 26)), worst(other(bare, "anchor")), worst(other(rigid, "bow"))];
    said.forEach((one, i) => {
      const [load, size] = again[i]!;
      expect(one.load).toBe(load);
      const shown = Number(/up to ([\d.]+)°/.exec(judgementWords(one))![1]);
      // Printed to a tenth of a degree, or a hundredth where it is small.
      expect(Math.abs(shown - size / degree)).toBeLessThan(size < 0.01 ? 0.0051 : 0.051);
      expect(judgementWords(one).includes("smaller than the gauge's uncertainty at every load read")).toBe(
        size < 0.3 * degree,
      );
    });
  });
});

describe("a reduction in fields", () => {
  it("each says what its name says", () => {
    const fields = JSON.parse(JSON.stringify(reduceFields(reduced, says({}).map(wordedJudgement))));
    reduced.readings.forEach((row, i) => {
      expect(fields.rows[i]).toEqual({
        load_N: row.load,
        angle_deg: row.angle! * degrees,
        theory_deg: row.theory * degrees,
        uncertainty_deg: row.u * degrees,
        residual: row.residual,
        standardised: row.standardised,
        weight: row.weight,
        influence: row.influence,
        outlier: row.outlier,
        suspect: row.suspect,
      });
    });
    reduced.release.forEach((row, i) => {
      expect(fields.release[i]).toEqual({
        load_N: row.load,
        movement_m: row.movement,
        theory_m: row.theory,
        uncertainty_m: row.u,
        residual: row.residual,
        standardised: row.standardised,
        weight: row.weight,
        influence: row.influence,
        outlier: row.outlier,
        suspect: row.suspect,
      });
    });
    const { massPerLength, rise, gaugeZero, rigGive } = reduced.fitted;
    expect(fields.fitted).toMatchObject({
      massPerLength_kg_per_m: massPerLength,
      rise_m: rise,
      rigGive_m_per_N: rigGive,
    });
    expect(fields.fitted.gaugeZero_deg.value).toBeCloseTo(gaugeZero!.value / degree, 12);
    expect(fields.fitted.gaugeZero_deg.u).toBeCloseTo(gaugeZero!.u / degree, 12);
    expect([fields.liftoff_N, fields.scatter]).toEqual([reduced.liftoff, reduced.scatter]);
  });
});
