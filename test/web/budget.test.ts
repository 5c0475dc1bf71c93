import { describe, expect, it } from "vitest";
import { certaintyOf, type Rig } from "../../src/rode/index.ts";
import { budgetOf } from "../../src/web/rig/budget.ts";
import { pullOf, usualState } from "../../src/web/rig/state.ts";

const { rig } = usualState;
const pull = pullOf(usualState);

describe("what the ± of an answer comes of", () => {
  it("is told in shares that make up the whole, of which each is its input's own ± squared", () => {
    const rows = budgetOf(rig, pull);
    expect(rows.map(({ input }) => input).sort()).toEqual(["massPerLength", "rise"]);
    const whole = certaintyOf(rig, pull)!;
    for (const of of ["anchorAngle", "anchorTension", "span"] as const) {
      expect(rows.reduce((sum, { shares }) => sum + shares[of], 0)).toBeCloseTo(1, 12);
      for (const { input, shares } of rows) {
        const alone = certaintyOf({ ...rig, uncertainty: { [input]: rig.uncertainty[input]! } }, pull)!;
        // JCGM 100, 5.1.2: the squares of independent parts add up to that of the whole; slopes to five digits.
        expect(shares[of]).toBeCloseTo(alone[of] ** 2 / whole[of] ** 2, 4);
      }
    }
  });

  it("is all of the one input that is uncertain, and nothing where none is", () => {
    const one: Rig = { ...rig, uncertainty: { rise: 0.2 } };
    expect(budgetOf(one, pull)).toMatchObject([{ input: "rise", shares: { anchorAngle: 1, span: 1 } }]);
    expect(budgetOf({ ...rig, uncertainty: {} }, pull)).toEqual([]);
  });
});
