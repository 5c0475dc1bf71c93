import { describe, expect, it } from "vitest";
import { bodyBow, generalisedAlpha, step } from "../../src/motion/index.ts";
import { g, inAir, lineRig, placed } from "./lines.ts";

describe("a heavy line towed by its upper end", () => {
  it("hangs straight at the critical angle, ½ρ d C V² sin²φ = w cos φ (Pode 1951; Berteaux, Buoy Engineering; recalled)", () => {
    const rho = 1025;
    const d = 0.01;
    const V = 2;
    const rig = {
      ...lineRig({
        length: 30,
        massPerLength: 0.5,
        density: 5000,
        diameter: d,
        drag: { across: 1.2, along: 0 },
        stretch: { kind: "linear" as const, stiffness: 1e6 },
      }),
      setting: {
        medium: "water" as const,
        depth: 5,
        rollerHeight: 1,
        waterDensity: rho,
        bottomSlope: 0,
        bottomFriction: 0,
        current: V,
      },
    };
    // The towed end is the anchor here, below the surface; the other hangs free in a stream of 2 m/s.
    const { state, elements: e } = placed(rig, 40, { ...inAir, surface: 100, current: V }, (s) => [
      0.5 * s,
      0,
      -0.866 * s,
    ]);
    const half = 0.5 * e.mass[e.count - 1]!;
    const bow = bodyBow({ mass: [half, half, half], force: (_q, _r, _t, out) => out.fill(0) });
    for (let k = 0; k < 4000; k++) step(state, bow, generalisedAlpha(0), 0.05);
    const w = 0.5 * g * (1 - rho / 5000);
    const q = 0.5 * rho * d * 1.2 * V * V;
    // cos φ = (−w + √(w² + 4q²)) / 2q, φ from the horizontal.
    const phi = Math.acos((-w + Math.sqrt(w * w + 4 * q * q)) / (2 * q));
    // The free tip flutters, as tips do; the line above it stands.
    for (const n of [2, 10, 20]) {
      const dx = state.place[3 * n + 3]! - state.place[3 * n]!;
      const dz = state.place[3 * n + 5]! - state.place[3 * n + 2]!;
      expect(Math.atan2(-dz, dx)).toBeCloseTo(phi, 4);
    }
  });
});
