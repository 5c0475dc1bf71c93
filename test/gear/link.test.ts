import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { BEDDED_IN, chainMassPerLength, chainStiffness, usualShortLink } from "../../src/gear/index.ts";

const E = 206e9;
const POISSON = 0.3;

/** The closed form for point contact, integrated by hand: an independent path to the same energy. */
function pointContact(bar: number, pitch: number, width: number): number {
  const [r, R, l] = [bar / 2, (width + bar) / 2, (pitch - width) / 2];
  const [A, I] = [Math.PI * r * r, (Math.PI * r ** 4) / 4];
  const e = (R - Math.sqrt(R * R - r * r)) / 2;
  const G = E / (2 * (1 + POISSON));
  const q = Math.PI / 4;
  const first = (0.5 * (1 / A + (R * (Math.PI / 2 - 1)) / (A * e))) / (l / I + Math.PI / (2 * A * e));
  const quarter =
    l / (4 * A * E) +
    ((-first * R * (Math.PI / 2 - 1)) / 2 + (R * R * ((3 * Math.PI) / 4 - 2)) / 4) / (A * E * e) +
    (R * q) / (4 * A * E) +
    ((R * (1 - q)) / 2 - first / 2) / (A * E) +
    ((10 / 9) * R * q) / (4 * G * A);
  return pitch / (4 * quarter);
}

const shapes = fc
  .record({
    bar: fc.double({ min: 0.004, max: 0.1, noNaN: true }),
    width: fc.double({ min: 1.2, max: 3, noNaN: true }),
    leg: fc.double({ min: 0.2, max: 6, noNaN: true }),
  })
  .map(({ bar, width, leg }) => ({ bar, insideWidth: width * bar, pitch: (width + leg) * bar }));

describe("the stiffness of chain from the shape of its link", () => {
  it("with a point contact, is the closed form", () => {
    fc.assert(
      fc.property(shapes, (shape) => {
        // 1e-9: eight Gauss points on a trigonometric polynomial over a quarter turn leave about 1e-11.
        expect(chainStiffness(shape, 0) / pointContact(shape.bar, shape.pitch, shape.insideWidth)).toBeCloseTo(1, 9);
      }),
      { seed: 21, numRuns: 200 },
    );
  });

  it("of a thin ring pulled across, is Timoshenko's: stretch (π/4 − 2/π) F R³ / (E I) (recalled; Roark gives 0.149)", () => {
    const bar = 0.001;
    const R = 0.5;
    // A ring is a link without legs; a leg of a millionth of the radius stands for none.
    const ring = { bar, insideWidth: 2 * R - bar, pitch: 2 * R - bar + 1e-6 * R };
    const inertia = (Math.PI * (bar / 2) ** 4) / 4;
    const stretch = ring.pitch / chainStiffness(ring, 0);
    // 1e-4: of a ring this thin, membrane and shear add (r/R)² ≈ 1e-6 and the leg 1e-6.
    expect((stretch * E * inertia) / R ** 3).toBeCloseTo(Math.PI / 4 - 2 / Math.PI, 4);
  });

  it("of a very long link, is that of two straight bars", () => {
    const bar = 0.01;
    const long = { bar, insideWidth: 1.4 * bar, pitch: 10_000 * bar };
    // 2e-3: each crown gives as much as some five bars of leg, so the two add a thousandth to ten thousand.
    expect(Math.abs(chainStiffness(long) / ((E * Math.PI * bar * bar) / 2) - 1)).toBeLessThan(2e-3);
  });

  it("is never more than that of two straight bars", () => {
    fc.assert(
      fc.property(shapes, fc.double({ min: 0, max: 1.2, noNaN: true }), (shape, bearing) => {
        expect(chainStiffness(shape, bearing)).toBeLessThan((E * Math.PI * shape.bar ** 2) / 2);
      }),
      { seed: 22, numRuns: 200 },
    );
  });

  it("goes with the square of the size and the modulus", () => {
    fc.assert(
      fc.property(shapes, fc.double({ min: 0.1, max: 10, noNaN: true }), (shape, k) => {
        const scaled = { bar: k * shape.bar, pitch: k * shape.pitch, insideWidth: k * shape.insideWidth };
        expect(chainStiffness(scaled) / chainStiffness(shape) / k ** 2).toBeCloseTo(1, 9);
        expect(chainStiffness(shape, BEDDED_IN, k * E) / chainStiffness(shape) / k).toBeCloseTo(1, 12);
      }),
      { seed: 23, numRuns: 100 },
    );
  });

  it("rises as the links bed into each other", () => {
    const shape = usualShortLink(0.01);
    const rising = [0, 0.1, 0.3, BEDDED_IN, 0.8, 1.1].map((bearing) => chainStiffness(shape, bearing));
    for (let i = 1; i < rising.length; i++) expect(rising[i]).toBeGreaterThan(rising[i - 1]!);
  });

  it("with a wide contact, agrees with the energy integrated finely", () => {
    const shape = { bar: 0.01, pitch: 0.031, insideWidth: 0.0145 };
    for (const bearing of [0.2, BEDDED_IN, 1]) {
      // The midpoint rule of 20,000 steps is good to about 1e-9 here.
      expect(chainStiffness(shape, bearing) / byMidpoints(shape, bearing)).toBeCloseTo(1, 7);
    }
  });
});

/** The same beam, its first moment found by minimising the energy on three trial moments: no derivative by hand. */
function byMidpoints(shape: { bar: number; pitch: number; insideWidth: number }, bearing: number): number {
  const { bar, pitch, insideWidth } = shape;
  const [r, R, l] = [bar / 2, (insideWidth + bar) / 2, (pitch - insideWidth) / 2];
  const [A, I] = [Math.PI * r * r, (Math.PI * r ** 4) / 4];
  const e = (R - Math.sqrt(R * R - r * r)) / 2;
  const G = E / (2 * (1 + POISSON));
  const sin = Math.sin(bearing);
  const energy = (first: number) => {
    let sum = (l * (first ** 2 / (E * I) + 0.25 / (A * E))) / 2;
    const steps = 20_000;
    for (let i = 0; i < steps; i++) {
      const t = ((i + 0.5) * Math.PI) / 2 / steps;
      const bears = Math.cos(t) < sin;
      const T = bears ? (0.5 * Math.cos(t)) / sin : 0.5;
      const M = first - 0.5 * R * (1 - Math.cos(t)) + (bears ? (0.25 * R * (sin - Math.cos(t)) ** 2) / sin : 0);
      const [N, V] = [T * Math.cos(t), T * Math.sin(t)];
      const perLength =
        M ** 2 / (A * E * e * R) + N ** 2 / (A * E) - (2 * M * N) / (A * E * R) + ((10 / 9) * V ** 2) / (G * A);
      sum += (perLength / 2) * R * (Math.PI / 2 / steps);
    }
    return sum;
  };
  // A parabola through three points has its least value in closed form.
  const h = R / 4;
  const [below, at, above] = [energy(-h), energy(0), energy(h)];
  const least = at - (above - below) ** 2 / (8 * (above - 2 * at + below));
  return pitch / (8 * least);
}

describe("the mass of chain from the shape of its link", () => {
  it("of a plain bar bent into rings, is bar length over pitch", () => {
    const shape = { bar: 0.01, pitch: 0.03, insideWidth: 0.015 };
    const ring = 2 * 0.015 + Math.PI * 0.025;
    expect(chainMassPerLength(shape, 7850)).toBeCloseTo((7850 * (Math.PI / 4) * 1e-4 * ring) / 0.03, 12);
  });
});
