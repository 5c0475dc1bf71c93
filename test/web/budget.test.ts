import { describe, expect, it } from "vitest";
import { certaintyOf, type Rig, readRig, rigToFile } from "../../src/rode/index.ts";
import { carryLoad, deploymentOf } from "../../src/study/index.ts";
import { carriedShares } from "../../src/web/days/carried-shares.ts";
import { budgetOf } from "../../src/web/rig/budget.ts";
import { exampleState, pullOf } from "../../src/web/rig/state.ts";

const { rig } = exampleState;
const pull = pullOf(exampleState);

describe("what the ± of an answer comes of", () => {
  it("is told in shares that make up the whole, of which each is its input's own ± squared", () => {
    const rows = budgetOf(rig, pull);
    expect(rows.map(({ input }) => input).sort()).toEqual(["massPerLength", "rise"]);
    const whole = certaintyOf(rig, pull)!;
    for (const of of ["anchorAngle", "angleToBottom", "anchorTension", "span"] as const) {
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

describe("what the ± of a carried load comes of", () => {
  it("is told in shares of its square that make up the whole, each that of its source left alone", () => {
    const file = rigToFile({ ...rig, uncertainty: { massPerLength: 0.03 } });
    const deployment = deploymentOf(readRig(file, "rig"), { depth: 7, paidOut: 35 });
    const carried = carryLoad(deployment, { value: 2200, u: 40 }, "bow");
    if (carried.kind !== "carried") throw new Error("an equilibrium was expected");
    for (const of of ["anchor", "angleToBottom"] as const) {
      const shares = carriedShares(carried, of);
      expect(shares.map(({ name }) => name)).toContain("the load read");
      expect(shares.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
      const exactly = carryLoad(deployment, { value: 2200, u: 0 }, "bow");
      if (exactly.kind !== "carried") throw new Error("an equilibrium was expected");
      // JCGM 100, 5.1.2: what is left of the square without the reading's own ±.
      const read = shares.find(({ name }) => name === "the load read")!;
      expect(read.share).toBeCloseTo(1 - exactly[of].u ** 2 / carried[of].u ** 2, 6);
    }
  });
});
