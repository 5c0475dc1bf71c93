import { describe, expect, it } from "vitest";
import { type Boat, surfaces, windForce } from "../../src/sea/index.ts";

// Larsson & Eliasson, Principles of Yacht Design, fig. 9.2 (seen): R = ½ ρ V² C A, ρ = 1.29 kg/m³; hull C = 0.5 on
// greatest beam × forward freeboard, mast C = 1.0 on mean thickness × windage height, rigging C = 1.2 on length × diameter.
// The YD-40's forward freeboard 1.39 m, mast thickness 0.139 m, 76.7 m of 8 mm and 23.9 m of 10 mm stay are printed there.
// Its beam and mast height are not visible on that page: 3.7 m and 15 m are ours.
const yacht: Boat = {
  name: "by fig. 9.2",
  length: 12.05,
  beam: 3.7,
  draught: 2,
  displacement: 8000,
  bowRollerHeight: 1.4,
  windage: {
    kind: "shapes",
    shapes: [
      { kind: "hull", freeboard: 1.39 },
      { kind: "mast", thickness: 0.139, foot: 1.5, top: 16.5 },
      { kind: "rigging", length: 76.7, diameter: 0.008, foot: 1.5, top: 16.5 },
      { kind: "rigging", length: 23.9, diameter: 0.01, foot: 1.5, top: 16.5 },
    ],
  },
  measured: [],
  uncertainty: {},
};

describe("windage by Larsson & Eliasson, fig. 9.2", () => {
  it("takes the printed coefficients where the boat file states none", () => {
    expect(surfaces(yacht).map(({ front }) => front.drag)).toEqual([0.5, 1.0, 1.2, 1.2]);
  });

  it("gives ½ ρ V² C A of each part, worked by hand at 10 m/s in air of 1.29 kg/m³", () => {
    const force = windForce(yacht, 10, 0, { airDensity: 1.29, profile: { kind: "uniform" } });
    // ½·1.29·100 = 64.5 Pa.
    const expected = [
      64.5 * 0.5 * 3.7 * 1.39, // 165.86 N
      64.5 * 1.0 * 0.139 * 15, // 134.48 N
      64.5 * 1.2 * 0.6136, // 47.49 N: the printed 76.7 m × 8 mm is 0.6136 m²
      64.5 * 1.2 * 0.239, // 18.50 N
    ];
    force.bySurface.forEach(({ along }, i) => {
      expect(along).toBeCloseTo(expected[i]!, 9);
    });
    expect(force.along).toBeCloseTo(
      expected.reduce((sum, n) => sum + n, 0),
      9,
    );
    expect(force.across).toBe(0);
  });
});
