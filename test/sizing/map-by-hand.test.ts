/** The map's odd corners: what cannot be rigged, what is settled cell by cell, and the share of a surge the rode at rest would take. */
import { describe, expect, it } from "vitest";
import { catalogue } from "../../src/gear/index.ts";
import {
  type MapQuestion,
  REASONS,
  reasonsOf,
  ropeOf,
  type SnubberKind,
  type Surge,
  snubberMap,
  trySnubber,
} from "../../src/sizing/index.ts";
import { COARSE, surgePeak } from "../../src/sizing/snatch.ts";
import { withSnubber } from "../../src/sizing/snubber.ts";
import { surgeShares } from "../../src/sizing/surge-share.ts";
import { allChain, rigOf } from "./rigs.ts";

const speed: Surge = { kind: "speed", speed: 0.6, mass: 6000 };
const limits = { ropeShare: 0.25, workingLoadShare: 1, loopShare: 0.1, anchorAngle: 0.14 };
const rope = { fibre: "polyamide", lay: "three-strand" };
function asked(kind: SnubberKind, lengths: number[], diameters: number[], rig = allChain): MapQuestion {
  return {
    rig,
    load: { at: "horizontal", newtons: 1500 },
    surge: speed,
    rope,
    kind,
    ends: "spliced",
    limits,
    lengths,
    diameters,
  };
}
function mapOf(question: MapQuestion) {
  const map = snubberMap(question, catalogue);
  if (map.kind !== "map") throw new Error(map.cause);
  return map;
}

describe("a map settled cell by cell", () => {
  const sloping = rigOf(
    "medium: water, depth: 8 m, rollerHeight: 1.5 m, bottomSlope: 2 deg",
    "chain: { grade: 30, size: 10 mm, length: 45 m }",
  );
  it("has each cell's own snubber, diameter by diameter, with all that is told of it", () => {
    const kind: SnubberKind = { hooked: "veered", slack: 3, bridle: { beam: 1.2, heading: 0.3 } };
    // Legs of half a metre do not meet over 1.2 m.
    const question = asked(kind, [0.5, 4, 7], [0.01, 0.016], sloping);
    const map = mapOf(question);
    expect(map.oneByOne).toBe(true);
    expect([...map.lengths]).toEqual([0.5, 4, 7]);
    expect([...map.diameters]).toEqual([0.01, 0.016]);
    for (const [j, diameter] of [0.01, 0.016].entries())
      for (const [i, length] of [0.5, 4, 7].entries()) {
        const cell = j * 3 + i;
        const own = { ...kind, rope: ropeOf({ ...rope, diameter }, catalogue, "rope"), length };
        const tried = trySnubber(sloping, question.load, speed, own, limits);
        if (i === 0) {
          expect(tried.kind).toBe("notSnubbed");
          expect(REASONS[map.reason[cell]!]).toBe("unriggable");
          expect(reasonsOf(map.mask[cell]!)).toEqual(["unriggable"]);
          expect(map.peak[cell]).toBeNaN();
          continue;
        }
        if (tried.kind !== "tried") throw new Error(tried.kind);
        const { peak, ropeShare, workingLoadShare, cleat, anchorAngle, loopShare } = tried.loads;
        expect([map.peak[cell], map.ropeShare[cell], map.workingLoadShare[cell], map.cleat[cell]]).toEqual([
          peak,
          ropeShare,
          workingLoadShare,
          cleat,
        ]);
        expect([map.anchorAngle[cell], map.loopShare[cell], map.movement[cell]]).toEqual([
          anchorAngle,
          loopShare,
          tried.snatch.give.movement,
        ]);
        expect(REASONS[map.reason[cell]!]).toBe(tried.verdict.reason);
        expect(map.mask[cell]).toBe(tried.verdict.mask);
      }
  });
});

describe("a map from the table", () => {
  it("leaves out what cannot be rigged, cell by cell, and says so", () => {
    const map = mapOf(asked({ hooked: "veered", bridle: { beam: 1.2, heading: 0 } }, [0.4, 0.601, 5], [0.012, 0.016]));
    expect(map.oneByOne).toBe(false);
    for (const cell of [0, 3]) {
      expect(REASONS[map.reason[cell]!]).toBe("unriggable");
      expect(reasonsOf(map.mask[cell]!)).toEqual(["unriggable"]);
      expect(map.peak[cell]).toBeNaN();
    }
    for (const cell of [1, 2, 4, 5]) expect(map.peak[cell]).toBeGreaterThan(1500);
  });
});

describe("the share of a surge that the rode at rest would take", () => {
  const lengths = [2, 3, 5, 8, 12];
  const diameters = [0.01, 0.012, 0.016];
  const kind: SnubberKind = { hooked: "veered" };
  const ropes = diameters.map((diameter) => ropeOf({ ...rope, diameter }, catalogue, "rope"));
  const question = { rig: allChain, surge: speed, kind, lengths, diameters };
  const ridden = (i: number, j: number): number => {
    const snubbed = withSnubber(allChain, { ...kind, rope: ropes[j]!, length: lengths[i]! });
    if ("kind" in snubbed) throw new Error(snubbed.kind);
    const peak = surgePeak(snubbed.rig, 1500, speed, COARSE);
    if (peak?.kind !== "peak") throw new Error("no peak");
    return peak.bow;
  };
  // At rest a share s would end in 1500 N and 1000 N · s: the share is what is ridden beyond 1500 N, by the thousand.
  const shareAt = surgeShares(question, 1500, ropes, (_, __, share) => 1500 + 1000 * share);
  const exact = (i: number, j: number): number => (ridden(i, j) - 1500) / 1000;

  it("is that of the run at the places that are run: the ends, and those nearest to even steps of the logarithm", () => {
    // 2, 3.63, 6.60 and 12 m asked: 2, 3, 8 and 12 lie nearest (ln 3.63/3 = 0.19 against ln 5/3.63 = 0.32; ln 8/6.60 = 0.19).
    for (const i of [0, 1, 3, 4])
      for (const j of [0, 1, 2]) expect(shareAt(i, j) / exact(i, j), `${i}, ${j}`).toBeCloseTo(1, 5);
    expect(exact(0, 0)).toBeGreaterThan(0.1);
  });

  it("is straight in the logarithms between them", () => {
    const x = Math.log(5 / 3) / Math.log(8 / 3);
    for (const j of [0, 2])
      expect(Math.log(shareAt(2, j))).toBeCloseTo((1 - x) * Math.log(exact(1, j)) + x * Math.log(exact(3, j)), 4);
  });

  it("is looked for between a thousandth and a thousand, and found nowhere beyond", () => {
    expect(surgeShares(question, 1500, ropes, () => 0)(0, 0)).toBeCloseTo(1000, 2);
    expect(surgeShares(question, 1500, ropes, () => 1e9)(0, 0)).toBeCloseTo(0.001, 8);
    // What is taken at no share counts as beyond.
    expect(surgeShares(question, 1500, ropes, () => null)(4, 2)).toBeCloseTo(0.001, 8);
  });

  it("stands by what was run where part of the map cannot be rigged, and is all of it where none can", () => {
    const two: SnubberKind = { hooked: "veered", bridle: { beam: 4.5, heading: 0 } };
    // Legs of two metres do not span the beam: between 2 and 3 m what was run at 3 m stands alone.
    const bridled = surgeShares({ ...question, kind: two }, 1500, ropes, (_, __, share) => 1500 + 1000 * share);
    expect(bridled(0, 0)).toBe(1);
    expect(Number.isFinite(bridled(2, 1))).toBe(true);
    const none = surgeShares(
      { ...question, kind: { hooked: "veered", bridle: { beam: 40, heading: 0 } } },
      1500,
      ropes,
      () => 1600,
    );
    expect(lengths.map((_, i) => none(i, 0))).toEqual([1, 1, 1, 1, 1]);
  });
});
