import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { catalogue, type StretchLaw, strainUnder } from "../../src/gear/index.ts";

describe("strain under a load", () => {
  it("is none without stretch, and load over EA where the law is straight", () => {
    expect(strainUnder({ kind: "rigid" }, 1e6)).toBe(0);
    expect(strainUnder({ kind: "linear", stiffness: 2e5 }, 1e3)).toBeCloseTo(0.005, 15);
  });

  it("follows a curve through its points, and on with the last slope", () => {
    const law: StretchLaw = {
      kind: "curve",
      points: [
        [0.06, 1500],
        [0.12, 5000],
      ],
    };
    expect(strainUnder(law, 750)).toBeCloseTo(0.03, 12);
    expect(strainUnder(law, 1500)).toBeCloseTo(0.06, 12);
    expect(strainUnder(law, 3250)).toBeCloseTo(0.09, 12);
    expect(strainUnder(law, 8500)).toBeCloseTo(0.18, 12);
  });

  it("never falls as the load rises, on every row of the catalogue", () => {
    fc.assert(
      fc.property(
        fc.nat(catalogue.rows.length - 1),
        fc.double({ min: 0, max: 1e5, noNaN: true }),
        fc.double({ min: 0, max: 1e4, noNaN: true }),
        (i, load, more) => {
          const row = catalogue.rows[i]!;
          if (row.kind === "point") return;
          expect(strainUnder(row.stretch, load + more)).toBeGreaterThanOrEqual(strainUnder(row.stretch, load));
        },
      ),
      { seed: 31, numRuns: 500 },
    );
  });
});
