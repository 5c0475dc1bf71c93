/** Where the load of a road acts: windage pulls along the water, own points at the end they were read at. */
import { describe, expect, it } from "vitest";
import { type LinePart, type Rig, settle } from "../../src/rode/index.ts";
import { complianceOverWind } from "../../src/web/weather/compliance/compliance-over-wind.ts";
import { pullAlong } from "../../src/web/weather/loads.ts";

describe("the load of a road", () => {
  it("of windage is horizontal, of own points at their own end", () => {
    expect(pullAlong("windage", 900)).toEqual({ at: "horizontal", newtons: 900 });
    for (const end of ["bow", "anchor", "horizontal"] as const)
      expect(pullAlong(end, 900)).toEqual({ at: end, newtons: 900 });
  });
  it("gives the rode's own movement for it: windage and a horizontal load alike, the bow's otherwise", () => {
    const chain: LinePart = {
      kind: "line",
      name: "chain",
      length: 40,
      massPerLength: 2.3,
      density: 7850,
      diameter: 0.01,
      material: "chain",
      stretch: { kind: "rigid" },
    };
    const rig: Rig = {
      name: "rig",
      setting: {
        medium: "water",
        depth: 7,
        rollerHeight: 1.3,
        waterDensity: 1025,
        bottomSlope: 0,
        bottomFriction: 0,
        current: 0,
      },
      rode: [chain],
      uncertainty: {},
    };
    const loads = [500, 1000, 2000];
    const of = (road: "windage" | "horizontal" | "bow") => complianceOverWind({ rig, road, loads, give: 1e-4 });
    expect(of("windage")).toEqual(of("horizontal"));
    expect(of("windage")).not.toEqual(of("bow"));
    const span = (newtons: number): number => {
      const settled = settle(rig, { at: "horizontal", newtons });
      if (settled.kind !== "settled") throw new Error(settled.cause);
      return settled.span;
    };
    // Slope of the span by a central difference of a thousandth of the load.
    const slope = (newtons: number) => (span(newtons * 1.001) - span(newtons * 0.999)) / (0.002 * newtons);
    const { load } = of("windage");
    expect(load).not.toBeNull();
    expect(Math.abs(slope(load!) / 1e-4 - 1)).toBeLessThan(1e-3);
  });
});
