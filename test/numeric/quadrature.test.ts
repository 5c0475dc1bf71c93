import { describe, expect, it } from "vitest";
import { gaussLegendre, integrate, integrateAdaptively, integrateOverDecades } from "../../src/numeric/index.ts";

describe("Gauss and Legendre's rule", () => {
  it("has the nodes and weights of Abramowitz & Stegun, table 25.4, for eight points (recalled)", () => {
    const upper = gaussLegendre(8).slice(4);
    // Tabulated over [-1, 1], with weights that add up to 2.
    const nodes = [0.1834346424956498, 0.525532409916329, 0.7966664774136267, 0.9602898564975363];
    const weights = [0.362683783378362, 0.3137066458778873, 0.2223810344533745, 0.1012285362903763];
    upper.forEach(({ node, weight }, i) => {
      expect(Math.abs(2 * node - 1 - nodes[i]!)).toBeLessThan(1e-15);
      expect(Math.abs(2 * weight - weights[i]!)).toBeLessThan(2e-15);
    });
  });

  it.each([1, 2, 5, 8, 20])("of %i places sums powers up to 2n − 1 exactly, and not the next", (n) => {
    const rule = gaussLegendre(n);
    const sum = (power: number) => rule.reduce((all, { node, weight }) => all + weight * node ** power, 0);
    for (let power = 0; power < 2 * n; power++) expect(Math.abs(sum(power) * (power + 1) - 1)).toBeLessThan(1e-13);
    if (n <= 5) expect(Math.abs(sum(2 * n) * (2 * n + 1) - 1)).toBeGreaterThan(1e-9);
  });

  it("cuts its range into as many panels as asked: a kink on a border of two is met exactly, within one it is not", () => {
    const kinked = (x: number): number => Math.abs(x - 0.25);
    const exact = (0.25 ** 2 + 0.75 ** 2) / 2;
    expect(Math.abs(integrate(kinked, 0, 1, 4) - exact)).toBeLessThan(1e-15);
    expect(Math.abs(integrate(kinked, 0, 1, 3) - exact)).toBeGreaterThan(1e-6);
    // Eight places a panel.
    let asked = 0;
    integrate(
      (x) => {
        asked++;
        return x;
      },
      0,
      1,
      7,
    );
    expect(asked).toBe(56);
  });

  it("sums panels and decades to their closed forms", () => {
    expect(Math.abs(integrate(Math.sin, 0, Math.PI, 4) - 2)).toBeLessThan(1e-14);
    expect(Math.abs(integrateOverDecades((f) => 1 / f, 1e-3, 1e3) / Math.log(1e6) - 1)).toBeLessThan(1e-13);
  });
});

describe("adaptive halves", () => {
  it("meet a kink within the accuracy asked", () => {
    expect(Math.abs(integrateAdaptively((x) => Math.abs(x - 0.3), 0, 1, 1e-10, 40) - 0.29)).toBeLessThan(1e-9);
  });
});
