import { describe, expect, it } from "vitest";
import { catalogue, strainUnder } from "../../src/gear/index.ts";
import { endForcesOf, type LinePart, settle } from "../../src/rode/index.ts";
import {
  divide,
  giveBetween,
  loadAt,
  ropeOf,
  type Snubber,
  snatchByEnergy,
  strengthInUse,
  trySnubber,
  withSnubber,
} from "../../src/sizing/index.ts";
import { allChain, inAir, rigOf, settled } from "./rigs.ts";

const rope = ropeOf({ fibre: "polyamide", lay: "three-strand", diameter: 0.014 }, catalogue, "rope");
const steady = { at: "horizontal", newtons: 1500 } as const;
const surge = { kind: "speed", speed: 0.5, mass: 8000 } as const;

function snubbed(rig: Parameters<typeof withSnubber>[0], snubber: Snubber) {
  const made = withSnubber(rig, snubber);
  if ("kind" in made) throw new Error(made.why);
  return made;
}
function tried(...asked: Parameters<typeof trySnubber>) {
  const answer = trySnubber(...asked);
  if (answer.kind !== "tried") throw new Error(answer.kind);
  return answer;
}

describe("a snubber", () => {
  it.each(["veered", "within"] as const)("of a length going to nothing changes nothing, %s", (hooked) => {
    const bare = snatchByEnergy(allChain, steady, surge);
    if (bare.kind !== "snatch") throw new Error(bare.kind);
    let before = Number.POSITIVE_INFINITY;
    for (const length of [1, 0.1, 0.01, 0.001]) {
      const made = snubbed(allChain, { rope, length, hooked });
      const with_ = snatchByEnergy(made.rig, steady, surge);
      if (with_.kind !== "snatch") throw new Error(with_.kind);
      const apart = Math.abs(with_.peak.bow.tension / bare.peak.bow.tension - 1);
      expect(apart).toBeLessThan(before);
      before = apart;
    }
    // A millimetre of rope gives some 0.1 mm, of a movement of half a metre; so much less is the peak.
    expect(before).toBeLessThan(1e-3);
    const still = snubbed(allChain, { rope, length: 1e-9, hooked });
    for (const H of [300, 1500, 8000]) expect(settled(still.rig, H).span).toBeCloseTo(settled(allChain, H).span, 6);
  });

  it("takes a surge of a stated distance where it ends: the bow that far on, and the rode's work less the pull's surged", () => {
    const mean = settled(allChain, 1500);
    for (const distance of [0.2, 0.5]) {
      const over = snatchByEnergy(allChain, steady, { kind: "distance", distance });
      if (over.kind !== "snatch") throw new Error(over.kind);
      expect(over.peak.span - mean.span).toBeCloseTo(distance, 6);
      // ∫ H dx between the two, by the midpoints of 400 settled spans.
      let work = 0;
      const [low, high] = [1500, over.peak.horizontal];
      for (let i = 0; i < 400; i++) {
        const [one, next] = [low + ((high - low) * i) / 400, low + ((high - low) * (i + 1)) / 400];
        work += ((one + next) / 2) * (settled(allChain, next).span - settled(allChain, one).span);
      }
      expect(over.surging / (work - 1500 * distance)).toBeCloseTo(1, 3);
    }
  });

  it("of no length with its loop of no slack changes nothing either", () => {
    const made = snubbed(allChain, { rope, length: 1e-3, slack: 0, hooked: "within" });
    for (const H of [300, 1500, 8000]) expect(settled(made.rig, H).span).toBeCloseTo(settled(allChain, H).span, 3);
  });

  it("gives the stretch of its rope: between two loads the span grows by no less, a straight rope by just that", () => {
    const made = snubbed(inAir, { rope, length: 8, hooked: "veered" });
    const give = giveBetween(made.rig, 2000, 6000);
    if (give.kind !== "give") throw new Error(give.kind);
    const [a, b] = [settled(made.rig, 2000), settled(made.rig, 6000)];
    const drawn = 8 * (strainUnder(rope.stretch, b.bow.tension) - strainUnder(rope.stretch, a.bow.tension));
    // dl / cos of the slope, which lies between 1 and the bow's at the lighter load.
    expect(give.shares.stretchingRope.movement).toBeGreaterThan(drawn * 0.995);
    expect(give.shares.stretchingRope.movement).toBeLessThan(drawn / Math.cos(a.bow.angle));
  });

  it("lowers the peak the longer it is, and the thinner", () => {
    const peak = (length: number, diameter: number): number =>
      tried(
        allChain,
        steady,
        surge,
        {
          rope: ropeOf({ fibre: "polyamide", lay: "three-strand", diameter }, catalogue, "rope"),
          length,
          hooked: "veered",
        },
        {},
      ).loads.peak;
    const peaks = [peak(3, 0.014), peak(6, 0.014), peak(12, 0.014)];
    expect([...peaks].sort((a, b) => b - a)).toEqual(peaks);
    expect(peak(9, 0.01)).toBeLessThan(peak(9, 0.016));
  });

  it("divides the load with its loop: rope by its own law, the chain the rest", () => {
    const made = snubbed(allChain, { rope, length: 8, slack: 1, hooked: "veered" });
    const line = made.rig.rode[made.line] as LinePart;
    for (const load of [500, 2000, 5000, 12_000, 30_000]) {
      const { legs, loop, distance } = divide(made, load);
      expect(legs[0]! + loop).toBeCloseTo(load, 6);
      // Laid down at its own corners, the joint law lies by at most a hundredth beside the sum of the two.
      expect(distance / 8 - 1).toBeCloseTo(strainUnder(line.stretch, load), 2);
      expect(legs[0]! / load).toBeCloseTo(loadAt(rope.stretch, distance / 8 - 1) / load, 6);
    }
  });

  it("bottoms out: once the loop is straight the chain takes what comes", () => {
    const made = snubbed(allChain, { rope, length: 8, slack: 1, hooked: "veered" });
    const slack = divide(made, 2000);
    const taut = divide(made, 30_000);
    // The loop still sags by some half a metre: a twentieth of the load or so, below the tenth that counts as bottomed out.
    expect(slack.loop / 2000).toBeLessThan(0.1);
    // The rest is the rope itself, stretched as far as the loop is long.
    expect(taut.loop / 30_000).toBeGreaterThan(0.65);
    expect(taut.distance).toBeLessThan(9 * (1 + 30_000 / 5e6));
    const held = tried(
      allChain,
      steady,
      { ...surge, speed: 1.8 },
      { rope, length: 8, slack: 1, hooked: "veered" },
      { loopShare: 0.1 },
    );
    expect(held.verdict.reason).toBe("loop");
    const free = tried(
      allChain,
      steady,
      { ...surge, speed: 1.8 },
      { rope, length: 8, slack: 6, hooked: "veered" },
      { loopShare: 0.1 },
    );
    expect(free.verdict.reason).toBe("within");
    expect(held.loads.peak).toBeGreaterThan(1.3 * free.loads.peak);
  });

  it("a slack loop hangs half its weight from the hook and so holds the chain down a little", () => {
    const without = snubbed(allChain, { rope, length: 8, hooked: "veered" });
    const with_ = snubbed(allChain, { rope, length: 8, slack: 4, hooked: "veered" });
    expect(settled(with_.rig, 3000).span).toBeLessThan(settled(without.rig, 3000).span);
  });

  it("names the limit that is passed by most, and every one passed", () => {
    const asked = { rope, length: 4, hooked: "veered" } as const;
    const loads = tried(allChain, steady, surge, asked, {}).loads;
    const verdict = (limits: Parameters<typeof trySnubber>[4]) => tried(allChain, steady, surge, asked, limits).verdict;
    expect(verdict({}).reason).toBe("within");
    expect(verdict({ peak: 0.5 * loads.peak }).reason).toBe("peak");
    expect(verdict({ ropeShare: 0.9 * loads.ropeShare, peak: 0.5 * loads.peak })).toEqual({
      reason: "peak",
      mask: 0b1100,
    });
    expect(verdict({ workingLoadShare: 0.5 * loads.workingLoadShare }).reason).toBe("gear");
    expect(verdict({ hook: 0.5 * loads.hook }).reason).toBe("hook");
    expect(verdict({ cleat: 0.5 * loads.cleat }).reason).toBe("cleat");
    expect(verdict({ anchorAngle: 0.5 * loads.anchorAngle }).reason).toBe("anchorAngle");
  });

  it("holds the rope against its wet strength at spliced or knotted ends", () => {
    // Seen: UFC 4-159-03, nylon 15 % less when wet; 90 % spliced (Mooring Equipment Guidelines); bowline 60 % (knot table).
    expect(strengthInUse(rope, "spliced") / rope.breakingLoad).toBeCloseTo(0.85 * 0.9, 9);
    expect(strengthInUse(rope, "knotted") / rope.breakingLoad).toBeCloseTo(0.85 * 0.6, 9);
  });

  it("of a bridle lying straight is the line its two legs make", () => {
    const made = snubbed(allChain, { rope, length: 8, bridle: { beam: 2.4, heading: 0 }, hooked: "veered" });
    const answer = tried(
      allChain,
      steady,
      surge,
      { rope, length: 8, bridle: { beam: 2.4, heading: 0 }, hooked: "veered" },
      {},
    );
    const [a, b] = answer.atPeak.legs as [number, number];
    expect(a).toBeCloseTo(b, 6);
    expect(made.reach).toBeCloseTo(Math.sqrt(64 - 1.44), 9);
    // Both legs together carry the pull over the cosine of their spread, which is under 9°.
    const load = answer.snatch.loads[made.line]!;
    expect((a + b) / load).toBeGreaterThan(1);
    expect((a + b) / load).toBeLessThan(1 / Math.cos(Math.asin(1.2 / 8)));
  });

  it("cannot take more chain than the rode has", () => {
    expect(withSnubber(allChain, { rope, length: 40, slack: 6, hooked: "within" })).toEqual({
      kind: "notSnubbed",
      why: "tooLong",
    });
    const made = withSnubber(rigOf("medium: air, rise: 2 m", "chain: { grade: 30, size: 10 mm, length: 8 m }"), {
      rope,
      length: 3,
      hooked: "veered",
    });
    expect("rig" in made).toBe(true);
  });

  it("keeps the steady load what wind and current make it, whatever hangs at the bow", () => {
    const answer = tried(allChain, { at: "bow", newtons: 1800 }, surge, { rope, length: 8, hooked: "veered" }, {});
    const bare = settle(allChain, { at: "bow", newtons: 1800 });
    if (bare.kind !== "settled") throw new Error(bare.cause);
    expect(answer.snatch.mean.horizontal).toBeCloseTo(bare.horizontal, 6);
    expect(endForcesOf(answer.snubbed.rig)({ at: "horizontal", newtons: bare.horizontal })!.span).toBeCloseTo(
      answer.snatch.mean.span,
      9,
    );
  });

  it("warms by the loss share of what its stretch took", () => {
    const answer = tried(allChain, steady, surge, { rope, length: 8, hooked: "veered" }, {}, "spliced", 4);
    const stored = answer.snatch.give.shares.stretchingRope.energy;
    // 15 % of it (seen: 10 % to 20 %); the rope's tension changes along it only by its own weight.
    expect(answer.heat.perCycle.value / (0.15 * stored)).toBeCloseTo(1, 2);
    const kelvin = answer.heat.perCycle.value / (rope.massPerLength * 8 * 1700);
    expect(answer.heat.risePerCycle.value).toBeCloseTo(kelvin, 9);
    expect(answer.heat.steadyCore!.value).toBeGreaterThan(answer.heat.risePerCycle.value);
    expect(answer.cutNew.value).toBeCloseTo(8 / 1.05, 9);
  });
});
