import { describe, expect, it } from "vitest";
import type { Rig } from "../../src/rode/index.ts";
import { GRAVITY, readRig, settle } from "../../src/rode/index.ts";
import { asFiled, carryLoad, type Doubt, deploymentRecordOf, pullEvidence } from "../../src/study/index.ts";
import { caseOf, trialRode } from "./cases.ts";

const DEGREES = 180 / Math.PI;
const kindsOf = (doubts: readonly Doubt[]) => doubts.map(({ kind }) => kind);
const held = { kind: "heldTo", load_N: 2593, u_N: 20 } as const;

/** Angle to the bottom of the trial rode written out by hand in 4.4 m of water, under the load held at the bow, degrees. */
function byHand(chain: string, rope: string): number {
  const text = trialRode
    .replace("6 m", "4.4 m")
    .replace("length: 20 m", `length: ${chain}`)
    .replace("length: 17 m", `length: ${rope}`);
  const settled = settle(readRig(text, "by hand"), { at: "bow", newtons: held.load_N });
  if (settled.kind !== "settled") throw new Error("an equilibrium is expected");
  return settled.anchor.angleToBottom * DEGREES;
}

it("what a pull's records say of how its rig lay is all of it: depth, length paid out, scope, and the depth by the level", () => {
  const depthByLevel = { value: 5, u: 0.2, soundings: 3 };
  expect(deploymentRecordOf(caseOf({ depth_m: 4.4, scope: 5, paidOut_m: 28.75 }, { depthByLevel }))).toEqual({
    depth: 4.4,
    scope: 5,
    paidOut: 28.75,
    depthByLevel,
  });
});

describe("the evidence of a pull", () => {
  it("is carried in its own water: 4.4 m at 5:1 in the record beats 6 m and 37 m in the rig file", () => {
    const { heldTo, doubts } = pullEvidence(
      caseOf({ depth_m: 4.4, scope: 5, loadAt: "bow", result: held, endedBy: "engine limit" }),
    );
    if (heldTo?.kind !== "carried") throw new Error("carried is expected");
    // 5:1 of 4.4 m and 1.35 m is 28.75 m: 20 m of chain, 8.75 m of rope.
    const ropeIn = byHand("20 m", "8.75 m");
    expect(heldTo.angleToBottom.value * DEGREES).toBeCloseTo(ropeIn, 9);
    // Chain taken in instead pulls steeper: one third of that square counts, whatever else is unknown.
    const chainIn = byHand("11.75 m", "17 m");
    expect(chainIn).toBeGreaterThan(ropeIn + 1);
    expect(heldTo.angleToBottom.u * DEGREES).toBeGreaterThan((chainIn - ropeIn) / Math.sqrt(3));
    expect(heldTo.angleToBottom.u * DEGREES).toBeLessThan(2);
    expect(kindsOf(doubts)).toEqual(["depthDiffers", "lengthDiffers", "lineUnknown"]);
  });

  it("takes the metres paid out of its record, surer than the scope they make", () => {
    const angle = (pull: object) => {
      const { heldTo, doubts } = pullEvidence(caseOf({ depth_m: 4.4, loadAt: "bow", result: held, ...pull }));
      if (heldTo?.kind !== "carried") throw new Error("carried is expected");
      return { ...heldTo.angleToBottom, kinds: kindsOf(doubts) };
    };
    const [byLength, byScope] = [angle({ paidOut_m: 28.75 }), angle({ scope: 5 })];
    expect(byLength.value * DEGREES).toBeCloseTo(byHand("20 m", "8.75 m"), 9);
    expect(byLength.u).toBeLessThan(byScope.u);
    const both = angle({ paidOut_m: 28.75, scope: 8 });
    expect(both.value).toBe(byLength.value);
    expect(both.kinds).toContain("lengthAndScopeDiffer");
  });

  it("covers by its ± what nobody recorded", () => {
    const angle = (pull: object) => {
      const { heldTo } = pullEvidence(caseOf({ loadAt: "bow", result: held, ...pull }));
      if (heldTo?.kind !== "carried") throw new Error("carried is expected");
      return heldTo.angleToBottom;
    };
    const [known, depthless, nothing] = [angle({ depth_m: 6, scope: 5 }), angle({ scope: 5 }), angle({})];
    expect(depthless.u).toBeGreaterThan(known.u);
    expect(nothing.u).toBeGreaterThan(2 * known.u);
    // Told nothing, the answer still holds the two that depths of 4.4 m and 7.1 m give within two ±.
    for (const depth_m of [4.4, 7.1])
      expect(Math.abs(angle({ depth_m }).value - nothing.value)).toBeLessThan(2 * nothing.u);
  });

  it("counts the other end as possible where nobody recorded where the load was read", () => {
    const told = pullEvidence(caseOf({ depth_m: 6, scope: 5, loadAt: "bow", result: held }));
    const guessed = pullEvidence(caseOf({ depth_m: 6, scope: 5, result: held }));
    expect(kindsOf(guessed.doubts)).toContain("endUnknown");
    if (told.heldTo?.kind !== "carried" || guessed.heldTo?.kind !== "carried") throw new Error("carried is expected");
    const [a, b] = [told.heldTo.anchor, guessed.heldTo.anchor];
    expect(b.value).toBe(a.value);
    // Read at the anchor it would have been the whole load there.
    expect(b.u).toBeCloseTo(Math.hypot(a.u, (2593 - a.value) / Math.sqrt(3)), 6);
  });

  it("without a rig is what was read, and says so", () => {
    const evidence = pullEvidence(caseOf({ loadAt: "bow", result: held }, { rigFile: null }));
    expect(evidence).toMatchObject({ deployment: null, heldTo: null, gaveWayBy: null, from: "record" });
    expect(kindsOf(evidence.doubts)).toEqual(["noRig"]);
  });

  it.each([
    ["not: a rig", "rigUnreadable"],
    ["", "rigUnreadable"],
    [trialRode.replace("6 m", "-6 m"), "rigUnreadable"],
  ])("of a rig file that cannot be read is a doubt, never a throw: %j", (rigFile, kind) => {
    expect(kindsOf(pullEvidence(caseOf({ loadAt: "bow", result: held }, { rigFile })).doubts)).toContain(kind);
  });

  it("of a depth of nought is a doubt", () => {
    expect(kindsOf(pullEvidence(caseOf({ depth_m: 0, loadAt: "bow", result: held })).doubts)).toContain(
      "deploymentUnreadable",
    );
  });

  it("says why the rig does not carry a load lighter than what hangs from the bow", () => {
    const { heldTo, doubts } = pullEvidence(
      caseOf({ depth_m: 6, scope: 5, loadAt: "bow", result: { kind: "heldTo", load_N: 1, u_N: 0.1 } }),
    );
    expect(heldTo?.kind).toBe("noEquilibrium");
    expect(doubts).toContainEqual(expect.objectContaining({ kind: "noEquilibrium", newtons: 1 }));
  });
});

describe("a load at both ends of a rode", () => {
  /** A chain in air, heavy pull, all of it lifted: tension falls by the weight of the rise, whatever its shape. */
  const rig: Rig = {
    name: "quay",
    setting: { medium: "air", rise: 9, bottomSlope: 0, bottomFriction: 0 },
    rode: [{ kind: "line", name: "chain", length: 30, massPerLength: 2.3, density: 7850, stretch: { kind: "rigid" } }],
    uncertainty: {},
  };
  const carry = (of: Rig, load: { value: number; u: number }) => {
    const answer = carryLoad(asFiled(of), load, "bow");
    if (answer.kind === "noEquilibrium") throw new Error(answer.cause);
    return answer;
  };

  it("is less at the anchor by the weight of the rise, read at the bow", () => {
    const { anchor, bow } = carry(rig, { value: 4000, u: 30 });
    expect(bow.value).toBeCloseTo(4000, 6);
    // T_bow − T_anchor = m g · rise for a lifted line that does not stretch (closed form).
    expect(bow.value - anchor.value).toBeCloseTo(2.3 * GRAVITY * 9, 6);
    // The difference does not depend on the load: the uncertainty passes unchanged.
    expect(anchor.u).toBeCloseTo(30, 6);
    expect(bow.u).toBeCloseTo(30, 6);
  });

  it("takes the uncertainty of mass and rise along, first order", () => {
    const { anchor, bow } = carry({ ...rig, uncertainty: { massPerLength: 0.03, rise: 0.2 } }, { value: 4000, u: 30 });
    const hanging = 2.3 * GRAVITY;
    expect(anchor.u).toBeCloseTo(Math.hypot(30, 0.03 * hanging * 9, 0.2 * hanging), 4);
    expect(bow.u).toBeCloseTo(30, 6);
  });

  it("just short of lifting its anchor is not sure of a level pull", () => {
    // At this load the chain just reaches the ground at the anchor; a little more lifts it: 0° is no certainty.
    const just = carry(rig, { value: 900, u: 0 }).settled.grounded;
    expect(just).toBeGreaterThanOrEqual(0);
    const level = carry({ ...rig, uncertainty: { rise: 0.5 } }, { value: liftoff(rig) * 0.999, u: 0 });
    expect(level.angleToBottom.value).toBe(0);
    expect(level.angleToBottom.u).toBeGreaterThan(0.3 / DEGREES);
  });

  it("says which input it could not move, and counts it by the side that has an answer", () => {
    // A metre more of rise than a rode of 30 m reaches: there is no upper side.
    const tall: Rig = { ...rig, setting: { ...rig.setting, rise: 29.9 } as Rig["setting"], uncertainty: { rise: 0.5 } };
    const answer = carry(tall, { value: 4000, u: 0 });
    expect(answer.doubts).toEqual([{ kind: "cannotMove", input: "rise", sides: 1 }]);
    expect(answer.anchor.u).toBeGreaterThan(0);
  });
});

/** Bow load at which a uniform chain on level ground is just all lifted (closed form): T = w (L² + h²) / 2h. */
function liftoff(rig: Rig): number {
  const line = rig.rode[0]!;
  if (line.kind !== "line" || rig.setting.medium !== "air") throw new Error("a chain in air is expected");
  const { rise } = rig.setting;
  return (line.massPerLength * GRAVITY * (line.length ** 2 + rise ** 2)) / (2 * rise);
}
