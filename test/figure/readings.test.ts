/** Readings over load, measured back from the drawing: where each stands, how long its ± is, what lies under it. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { angleOverLoad, curveLoads, type DrawnPanels, movementOverLoad } from "../../src/figure/index.ts";
import { readRun, reduce, theoryCurve } from "../../src/pull/index.ts";
import { readRig } from "../../src/rode/index.ts";
import { all, type Element, parse, places, texts } from "./parse.ts";

const demo = (name: string) => readFileSync(join(import.meta.dirname, "../../data/demo", name), "utf8");
const rig = readRig(demo("gantry-rig.yaml"), "gantry-rig.yaml");
const { run } = readRun(demo("gantry-run.yaml"), "gantry-run.yaml");
const reduced = reduce(run, rig);
const curve = theoryCurve(run, reduced, curveLoads(run, reduced));
const degrees = 180 / Math.PI;
const lbf = 4.4482216152605;
const metric = { run, reduced, curve } as const;
const us = { ...metric, units: "us" } as const;

/** Upright strokes, as the bars of a ± are. */
const uprights = (root: Element) =>
  all(root, "path")
    .filter(({ attributes }) => !attributes.d!.endsWith("Z"))
    .map(({ attributes }) => places(attributes.d!))
    .filter(([from, to]) => from !== undefined && to !== undefined && Math.abs(from[0] - to[0]) < 1e-6)
    .map(([from, to]) => ({ x: from![0], y: (from![1] + to![1]) / 2, high: Math.abs(to![1] - from![1]) }));
const middles = (root: Element) =>
  all(root, "path")
    .filter(({ attributes }) => attributes.d!.endsWith("Z"))
    .map(({ attributes }) => places(attributes.d!))
    .filter((corners) => corners.length === 4)
    .map((c) => [(c[0]![0] + c[2]![0]) / 2, (c[1]![1] + c[3]![1]) / 2] as const);
const isAt = (at: readonly (readonly [number, number])[], x: number, y: number): boolean =>
  at.some(([px, py]) => Math.hypot(px - x, py - y) < 0.02);

function looked(drawn: DrawnPanels) {
  const root = parse(drawn.svg);
  const [upper, lower] = drawn.panels;
  return { root, bars: uprights(root), at: middles(root), upper: upper!, lower: lower!, words: texts(root).join("\n") };
}

describe("angles over load", () => {
  it.each([
    ["metric", metric, 1],
    ["us", us, lbf],
  ] as const)(
    "in %s units, each reading stands at its load and angle, with one u to either side",
    (_, figure, unit) => {
      const { bars, at, upper, lower } = looked(angleOverLoad(figure));
      const read = reduced.readings.filter((row) => row.angle !== null);
      expect(read.length).toBeGreaterThan(3);
      // In kilonewtons where they are large.
      const scale =
        unit === 1 && Math.max(...run.readings.map((r) => r.load), ...run.release.map((r) => r.load)) > 3000
          ? 1e3
          : unit;
      for (const row of read) {
        const x = upper.x.toPixel(row.load / scale);
        const y = upper.y.toPixel(row.angle! * degrees);
        expect(isAt(at, x, y), `${row.load} N`).toBe(true);
        const long = Math.abs(upper.y.toPixel(row.u * degrees) - upper.y.toPixel(-row.u * degrees));
        const bar = bars.find((b) => Math.abs(b.x - x) < 0.02 && Math.abs(b.y - y) < 0.02 && b.high > 1);
        expect(bar?.high).toBeCloseTo(long, 2);
        // And its residual under it, in standard uncertainties.
        expect(isAt(at, lower.x.toPixel(row.load / scale), lower.y.toPixel(row.residual)), `${row.load} N`).toBe(true);
      }
    },
  );
  it("says which end was read, and what the band is", () => {
    const { words } = looked(angleOverLoad(metric));
    expect(words).toContain("theory ± u");
    expect(words).toContain("beyond this: outlier");
    const afloat = looked(angleOverLoad({ ...metric, medium: "water" }));
    expect(afloat.root.children[0]!.text).toContain("angle at the anchor".replace("angle", "Angle"));
  });
});

describe("movement over load", () => {
  it("stands each row of the release at its load and movement, with one u to either side", () => {
    const { bars, at, upper } = looked(movementOverLoad(us));
    const inch = 0.0254;
    for (const row of reduced.release) {
      const x = upper.x.toPixel(row.load / lbf);
      const y = upper.y.toPixel(row.movement / inch);
      expect(isAt(at, x, y), `${row.load} N`).toBe(true);
      if (!(row.u > 0)) continue;
      const long = Math.abs(upper.y.toPixel((2 * row.u) / inch) - upper.y.toPixel(0));
      const bar = bars.find((b) => Math.abs(b.x - x) < 0.02 && Math.abs(b.y - y) < 0.02 && b.high > 0.5);
      if (long > 1) expect(bar?.high).toBeCloseTo(long, 2);
    }
  });
});

describe("the loads a curve is asked at", () => {
  it("run evenly from below the lowest reading to past the highest, the lift-off among them", () => {
    const loads = curveLoads(run, reduced);
    const all = [...run.readings, ...run.release].map((row) => row.load);
    expect(Math.max(...loads)).toBeCloseTo(1.04 * Math.max(...all), 6);
    expect(Math.min(...loads)).toBeLessThan(Math.min(...all));
    expect(loads).toEqual([...loads].sort((a, b) => a - b));
    expect(loads).toContain(reduced.liftoff);
    expect(loads).toHaveLength(121);
  });
});
