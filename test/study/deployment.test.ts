import { describe, expect, it } from "vitest";
import { lengthOf, type Rig, readRig, riseOf, settle } from "../../src/rode/index.ts";
import { deployed } from "../../src/study/deployment.ts";
import { asFiled, type Doubt, deploymentOf } from "../../src/study/index.ts";
import { trialRode } from "./cases.ts";

const filed = readRig(trialRode, "rig");
const lengths = (rig: Rig) => rig.rode.map(lengthOf);
const kindsOf = (doubts: readonly Doubt[]) => doubts.map(({ kind }) => kind);

describe("a rig in the water of its pull", () => {
  it("lies at the depth recorded, not at that of its file, and says that they differ", () => {
    const { rig, rise, doubts } = deploymentOf(filed, { depth: 4.4, paidOut: 37 });
    expect(riseOf(rig.setting)).toBeCloseTo(4.4 + 1.35, 12);
    expect(rise).toMatchObject({ from: "recorded", u: 0.3 });
    expect(doubts).toEqual([{ kind: "depthDiffers", recorded: 4.4, filed: 6 }]);
    expect(lengths(rig)).toEqual([20, 17]);
  });

  it("has as much rode out as its scope says: length over the height of the roller above the anchor", () => {
    const { rig, length, part, otherParts } = deploymentOf(filed, { depth: 4.4, scope: 5 });
    expect(length.value).toBeCloseTo(5 * 5.75, 12);
    expect(lengths(rig)).toEqual([20, 8.75]);
    expect([part, otherParts]).toEqual([2, [1]]);
    const settled = settle(rig, { at: "bow", newtons: 2593 });
    expect(settled.kind === "settled" && settled.scope).toBeCloseTo(5, 12);
  });

  it("takes a scope that is the file's but for rounding as the file's own length, and a depth within its ± without a word", () => {
    const { rig, doubts } = deploymentOf(filed, { depth: 6.2, scope: 5 });
    expect(lengths(rig)).toEqual([20, 17]);
    expect(riseOf(rig.setting)).toBeCloseTo(7.55, 12);
    expect(doubts).toEqual([]);
  });

  it("says which line it took as paid out, and which others it may have been", () => {
    const { doubts } = deploymentOf(filed, { depth: 4.4, scope: 5 });
    expect(doubts).toEqual([
      { kind: "depthDiffers", recorded: 4.4, filed: 6 },
      { kind: "lengthDiffers", paidOut: 28.75, filed: 37, part: 2 },
      { kind: "lineUnknown", part: 2, others: [1] },
    ]);
  });

  it("comes in over the bow, whole lines aboard, where little would stay out of the line before", () => {
    // 17.25 m of 20 m chain and 17 m rope: a quarter of a metre of chain with all the rope is not how a rode comes in.
    const { rig, part } = deploymentOf(filed, { depth: 4.4, scope: 3 });
    expect(part).toBe("bow");
    expect(lengths(rig)).toEqual([17.25]);
  });

  it("believes the length before the scope, and says where the two do not go together", () => {
    // 28.75 m at a roller 5.75 m above the anchor are 5 : 1 by division.
    const agreeing = deploymentOf(filed, { depth: 4.4, paidOut: 28.75, scope: 5 });
    expect(kindsOf(agreeing.doubts)).toEqual(["depthDiffers", "lengthDiffers", "lineUnknown"]);
    const { length, doubts } = deploymentOf(filed, { depth: 4.4, paidOut: 28.75, scope: 7 });
    expect(length).toEqual({ value: 28.75, u: 0.03 * 28.75 });
    expect(doubts).toContainEqual({ kind: "lengthAndScopeDiffer", paidOut: 28.75, scope: 7, ofLength: 5 });
    // A depth nobody knows leaves so much open that no scope contradicts by a fifth.
    expect(kindsOf(deploymentOf(filed, { paidOut: 37, scope: 6 }).doubts)).not.toContain("lengthAndScopeDiffer");
  });

  it("keeps a snubber on while the chain before it is taken in", () => {
    const snubbed: Rig = {
      ...filed,
      rode: [
        { ...filed.rode[0]!, length: 60 } as Rig["rode"][number],
        { ...filed.rode[1]!, length: 8 } as Rig["rode"][number],
      ],
    };
    const { rig, part, otherParts } = deploymentOf(snubbed, { depth: 6, paidOut: 40 });
    expect([part, otherParts]).toEqual([1, ["bow"]]);
    expect(lengths(rig)).toEqual([32, 8]);
  });

  it("has its last line made longer where more was paid out than its file holds", () => {
    const { rig, doubts } = deploymentOf(filed, { depth: 6, paidOut: 50 });
    expect(lengths(rig)).toEqual([20, 30]);
    expect(kindsOf(doubts)).toEqual(["longerThanRode", "lineUnknown"]);
  });

  it("keeps the file's depth and rode where nothing was recorded, with a wide ± and both doubts", () => {
    const { rig, rise, length, doubts } = deploymentOf(filed, {});
    expect(rig.setting).toEqual(filed.setting);
    expect(lengths(rig)).toEqual([20, 17]);
    expect(rise.u).toBeCloseTo(Math.hypot(1.5, 0.3), 12);
    expect(length.u).toBeCloseTo(3.7, 12);
    expect(kindsOf(doubts)).toEqual(["depthUnknown", "lengthUnknown"]);
  });

  it("takes the depth from other soundings and the level of the day where it has none of its own", () => {
    const depthByLevel = { value: 4.1, u: 0.1, soundings: 9 };
    const { rig, rise, doubts } = deploymentOf(filed, { depthByLevel, paidOut: 37 });
    expect(riseOf(rig.setting)).toBeCloseTo(5.45, 12);
    expect(rise).toMatchObject({ from: "level", u: Math.hypot(0.5, 0.3) });
    expect(kindsOf(doubts)).toEqual(["depthFromLevel"]);
  });

  it("on land has no depth to take", () => {
    const land = readRig(
      "format: rodebench/rig@1\nsetting: { medium: air, rise: 9 m }\nrode: [{ line: { length: 30 m, massPerLength: 2 kg/m, density: 7850 kg/m3 } }]\n",
      "rig",
    );
    const { rig, doubts } = deploymentOf(land, { depth: 4.4, paidOut: 30 });
    expect(rig.setting).toEqual(land.setting);
    expect(doubts).toEqual([{ kind: "depthOnLand", recorded: 4.4 }]);
  });

  it("of which nobody told anything else is the rig file and no doubt", () => {
    expect(asFiled(filed)).toMatchObject({ rig: filed, doubts: [], part: null });
  });

  it("is made longer and shorter in the line next to the bow where nobody told which, as when its length is unsure", () => {
    for (const length of [1.02, 0.98]) {
      const moved = deployed(asFiled(filed), { length })!;
      expect(lengths(moved)[0]).toBe(20);
      expect(lengths(moved)[1]).toBeCloseTo(37 * length - 20, 9);
    }
  });

  it.each([
    [{ depth: 0 }, "depth: 0"],
    [{ depth: -3 }, "depth: -3"],
    [{ paidOut: 0 }, "paidOut: 0"],
    [{ scope: Number.NaN }, "scope: NaN"],
    [{ scope: Number.POSITIVE_INFINITY }, "scope: Infinity"],
  ])("refuses %j by name", (record, line) => {
    expect(() => deploymentOf(filed, record)).toThrow(line);
  });
});
