import { describe, expect, it } from "vitest";
import { type Figure, relativeUncertainty, spreadOf } from "../../src/gear/index.ts";

const figure = (value: number, more: Partial<Figure> = {}): Figure => ({ value, basis: "seen", source: "a", ...more });

describe("how far a figure can be trusted", () => {
  it("is told by the figure that differs most from the one used", () => {
    expect(spreadOf([figure(3.25), figure(3.8)])).toBeCloseTo(3.8 / 3.25 - 1, 12);
    expect(spreadOf([figure(20), figure(27), figure(19)])).toBeCloseTo(0.35, 12);
  });

  it("is never less than the figure's own spread, or what is assumed of its kind", () => {
    expect(spreadOf([figure(1, { spread: 0.08 }), figure(1.01)])).toBe(0.08);
    expect(spreadOf([figure(1)])).toBeLessThan(spreadOf([figure(1, { basis: "computed" })]));
    expect(spreadOf([figure(1, { basis: "computed" })])).toBeLessThan(spreadOf([figure(1, { basis: "recalled" })]));
  });

  it("is its own when it was measured on the gear itself, whatever a table says", () => {
    expect(spreadOf([figure(2.31, { basis: "measured", spread: 0.01 }), figure(2.5)])).toBe(0.01);
    expect(spreadOf([figure(2.31, { spread: 0.01 }), figure(2.5, { basis: "measured" })])).toBeCloseTo(
      2.5 / 2.31 - 1,
      12,
    );
  });

  it("becomes a standard uncertainty as a rectangular distribution does (JCGM 100:2008, 4.3.7)", () => {
    expect(relativeUncertainty([figure(1, { spread: 0.08 })])).toBeCloseTo(0.08 / Math.sqrt(3), 15);
  });
});
