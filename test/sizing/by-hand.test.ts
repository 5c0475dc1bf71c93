/** Each law of sizing worked out beside it: straight springs, loops, heat, limits, strengths, one number at a time. */
import { describe, expect, it } from "vitest";
import { catalogue, strainUnder } from "../../src/gear/index.ts";
import {
  GRAVITY,
  type LinePart,
  partLoads,
  type Rig,
  type StretchLaw,
  settle,
  settleTraced,
} from "../../src/rode/index.ts";
import { bridleAt } from "../../src/sizing/bridle.ts";
import { bridleReach } from "../../src/sizing/bridle-shape.ts";
import { weigh } from "../../src/sizing/candidate.ts";
import { loadAt, ropeOf } from "../../src/sizing/index.ts";
import { cornersOf, energyAt, slopeAt } from "../../src/sizing/law.ts";
import { judge, REASONS, reasonsOf, type SnubberLoads, strengthInUse } from "../../src/sizing/limits.ts";
import { loopPull } from "../../src/sizing/loop.ts";
import { notBeaten } from "../../src/sizing/pareto.ts";
import {
  besideLoop,
  divide,
  jointStrains,
  loopBeside,
  spansBeam,
  stiff,
  topLine,
  withSnubber,
} from "../../src/sizing/snubber.ts";
import { springOf } from "../../src/sizing/spring.ts";
import { allChain, inAir, mixed, rigOf, settled } from "./rigs.ts";

const rope = ropeOf({ fibre: "polyamide", lay: "three-strand", diameter: 0.014 }, catalogue, "rope");
const curve: StretchLaw = {
  kind: "curve",
  points: [
    [0.1, 1000],
    [0.2, 4000],
  ],
};
const linear: StretchLaw = { kind: "linear", stiffness: 50_000 };

describe("a stretch law read backwards", () => {
  it("is straight between its points, and goes on beyond the last as it came to it", () => {
    expect([0.05, 0.1, 0.15, 0.2, 0.3].map((strain) => loadAt(curve, strain))).toEqual([
      expect.closeTo(500, 9),
      expect.closeTo(1000, 9),
      expect.closeTo(2500, 9),
      expect.closeTo(4000, 9),
      expect.closeTo(7000, 9),
    ]);
    expect([0.05, 0.1, 0.15, 0.3].map((strain) => slopeAt(curve, strain))).toEqual([
      expect.closeTo(10_000, 6),
      expect.closeTo(10_000, 6),
      expect.closeTo(30_000, 6),
      expect.closeTo(30_000, 6),
    ]);
    expect([loadAt(curve, 0), loadAt(curve, -0.1), slopeAt(curve, -0.1)]).toEqual([0, 0, 0]);
    for (const load of [300, 1500, 6000]) expect(loadAt(curve, strainUnder(curve, load))).toBeCloseTo(load, 6);
  });

  it("takes the energy under it", () => {
    // Triangles and trapezes: ½·0.1·1000 = 50; + ½(1000 + 2500)·0.05 = 87.5; + ½(1000 + 4000)·0.1 = 250; + ½(4000 + 7000)·0.1 = 550.
    const energies = [0.1, 0.15, 0.2, 0.3].map((strain) => energyAt(curve, strain));
    for (const [i, joules] of [50, 137.5, 300, 850].entries()) expect(energies[i]).toBeCloseTo(joules, 9);
    expect(energyAt(linear, 0.04)).toBeCloseTo(0.5 * 50_000 * 0.04 ** 2, 9);
    expect([energyAt(linear, -1), energyAt({ kind: "rigid" }, 0.1), energyAt(curve, 0)]).toEqual([0, 0, 0]);
  });

  it("of a straight or an unstretching line is its stiffness, or no load short of all", () => {
    expect([loadAt(linear, 0.02), slopeAt(linear, 0.02)]).toEqual([1000, 50_000]);
    expect([loadAt({ kind: "rigid" }, 0.01), slopeAt({ kind: "rigid" }, 0.01)]).toEqual([Number.POSITIVE_INFINITY, 0]);
    expect(cornersOf(linear)).toEqual([[0.1, 5000]]);
    expect(cornersOf(curve)).toBe(curve.points);
    expect(cornersOf({ kind: "rigid" })).toEqual([]);
  });
});

describe("a rode as a spring", () => {
  // All but weightless, level ends to 1e-9: a bar of EA/L.
  const bar = rigOf(
    "medium: air, rise: 0.001 m",
    "line: { length: 20 m, massPerLength: 0.000001 kg/m, density: 1140, stiffness: 40 kN }",
  );
  const spring = springOf(bar);
  const k = 40_000 / 20;

  it("takes ½ (H − H₀)²/k beyond a steady force, by its bar", () => {
    // A millionth of weight sags by far less than a millimetre.
    for (const [mean, energy] of [
      [500, 100],
      [500, 4000],
      [2000, 900],
    ] as const)
      expect(spring.forceTaking(energy, mean) / (mean + Math.sqrt(2 * k * energy))).toBeCloseTo(1, 5);
    expect(spring.forceTaking(0, 700)).toBe(700);
    expect(spring.forceTaking(-1, 700)).toBe(700);
  });

  it("gives by ΔH/k, and is moved by k times the way", () => {
    expect(spring.spanAt(3000) - spring.spanAt(1000)).toBeCloseTo(2000 / k, 5);
    expect(spring.forceMoved(0.4, 1000)).toBeCloseTo(1000 + 0.4 * k, 0);
  });

  it("of chain takes the work of a settled rode beyond the steady force, summed here", () => {
    const [mean, H] = [800, 4000];
    let energy = 0;
    const n = 4000;
    let before = settled(allChain, mean).span;
    for (let i = 1; i <= n; i++) {
      const at = mean * (H / mean) ** (i / n);
      const span = settled(allChain, at).span;
      const middle = mean * (H / mean) ** ((i - 0.5) / n);
      energy += (middle - mean) * (span - before);
      before = span;
    }
    // The middle rule with 4000 steps over a factor of five.
    expect(springOf(allChain).forceTaking(energy, mean) / H).toBeCloseTo(1, 5);
  });

  it("that never takes so much is told as endless", () => {
    const short = rigOf("medium: air, rise: 1 m", "line: { length: 5 m, massPerLength: 1 kg/m, density: 7850 }");
    // A hanging line that does not stretch gives no more than 5 m − √(25 − 1) of span beyond its first.
    expect(springOf(short).forceTaking(1e9, 100)).toBe(Number.POSITIVE_INFINITY);
    expect(springOf(short).forceMoved(10, 100)).toBe(Number.POSITIVE_INFINITY);
  });
});

describe("a loop beside a snubber", () => {
  const chain = allChain.rode[0] as LinePart;
  it("weighs what its chain weighs in the water, and stretches as that does", () => {
    const loop = loopBeside(allChain, chain, 9);
    const water = allChain.setting.medium === "water" ? allChain.setting.waterDensity : 0;
    expect(loop.length).toBe(9);
    expect(loop.weight).toBeCloseTo(chain.massPerLength * GRAVITY * (1 - water / chain.density), 9);
    const air = inAir.rode[0] as LinePart;
    expect(loopBeside(inAir, air, 9).weight).toBeCloseTo(air.massPerLength * GRAVITY, 9);
    expect(loopBeside(allChain, { ...chain, stretch: linear }, 9).stiffness).toBe(50_000);
    expect(loopBeside(allChain, { ...chain, stretch: { kind: "rigid" } }, 9).stiffness).toBe(Number.POSITIVE_INFINITY);
    // A chain that would float has no weight to hang by.
    expect(loopBeside(allChain, { ...chain, density: 500 }, 9).weight).toBe(0);
  });

  it("that does not stretch is a bar of steel, another stays as it is", () => {
    const loop = { length: 9, weight: 20, stiffness: 5e6 };
    expect(stiff(loop)).toBe(loop);
    expect(stiff({ ...loop, stiffness: Number.POSITIVE_INFINITY })).toEqual({ ...loop, stiffness: 1e9 });
  });

  it("without weight is slack until it is straight, then its chain", () => {
    const loop = { length: 10, weight: 0, stiffness: 5e6 };
    expect(loopPull(loop, 9.9)).toBe(0);
    expect(loopPull(loop, 10.01)).toBeCloseTo((5e6 * 0.01) / 10, 6);
    expect(loopPull({ ...loop, weight: 20 }, 0)).toBe(0);
  });

  it("is added to the rope, strain by strain", () => {
    const loop = { length: 9, weight: 20, stiffness: 5e6 };
    const law = besideLoop(rope.stretch, 8, loop);
    if (law.kind !== "curve") throw new Error(law.kind);
    for (const [strain, load] of law.points.slice(1))
      expect(load).toBeCloseTo(loadAt(rope.stretch, strain) + loopPull(loop, 8 * (1 + strain)), 6);
    // The first: what the slack loop pulls by itself.
    expect(law.points[0]![1]).toBeCloseTo(loopPull(loop, 8), 9);
    const strains = jointStrains(rope.stretch, 8, loop);
    expect(strains).toEqual([...strains].sort((a, b) => a - b));
    // 9 m over 8 m: straight at a strain of an eighth, and looked at beyond.
    expect(strains.some((strain) => Math.abs(strain - 0.125) < 1e-12)).toBe(true);
    expect(strains.at(-1)).toBeCloseTo(0.125 + 1.125 * 4e-3, 12);
    for (const [strain] of cornersOf(rope.stretch)) if (strain < 0.125) expect(strains).toContain(strain);
  });
});

describe("a rig with a snubber on it", () => {
  const chain = allChain.rode[0] as LinePart;
  it("has chain, hook and rope in their order; within, what lies beside the rope is taken from the chain", () => {
    const made = withSnubber(allChain, {
      rope,
      length: 8,
      slack: 1.5,
      hooked: "within",
      hook: { mass: 2, density: 7000 },
    });
    if ("kind" in made) throw new Error(made.why);
    const [below, hook, line] = made.rig.rode as [LinePart, Extract<Rig["rode"][number], { kind: "point" }>, LinePart];
    expect(made.rig.rode).toHaveLength(3);
    expect(made.line).toBe(2);
    expect(below.length).toBeCloseTo(chain.length - 8 - 1.5, 9);
    // Half of the loop hangs from the hook.
    expect(hook).toMatchObject({
      kind: "point",
      density: 7000,
      mass: expect.closeTo(2 + 0.5 * 9.5 * chain.massPerLength, 9),
    });
    expect(line).toMatchObject({
      length: 8,
      massPerLength: rope.massPerLength,
      density: rope.density,
      diameter: rope.diameter,
      material: "rope",
    });
    expect(made.reach).toBe(8);
    expect(made.loop!.length).toBe(9.5);
    expect(made.rig.name).toBe(`${allChain.name}, snubbed`);
  });

  it("veered lies on top of it, without a hook where nothing hangs there", () => {
    const made = withSnubber(allChain, { rope, length: 8, hooked: "veered" });
    if ("kind" in made) throw new Error(made.why);
    expect(made.rig.rode.map((part) => part.kind)).toEqual(["line", "line"]);
    expect(made.line).toBe(1);
    expect((made.rig.rode[0] as LinePart).length).toBe(chain.length);
    expect((made.rig.rode[1] as LinePart).stretch).toEqual(rope.stretch);
    expect(made).not.toHaveProperty("loop");
    expect(made).not.toHaveProperty("bridle");
  });

  it("of two legs weighs both over its reach", () => {
    const bridle = { beam: 3, heading: 0, other: 7 };
    const made = withSnubber(allChain, { rope, length: 6, hooked: "veered", bridle });
    if ("kind" in made) throw new Error(made.why);
    const line = made.rig.rode[made.line] as LinePart;
    expect(line.massPerLength * line.length).toBeCloseTo(rope.massPerLength * 13, 9);
    expect(line.name).toContain("bridle");
    expect(made.bridle!.legs).toEqual([6, 7]);
    const even = withSnubber(allChain, { rope, length: 6, hooked: "veered", bridle: { beam: 3, heading: 0 } });
    if ("kind" in even) throw new Error(even.why);
    // A straight triangle: √(6² − 1.5²).
    expect(even.reach).toBeCloseTo(Math.sqrt(36 - 2.25), 9);
  });

  it("cannot be where legs do not meet, more is taken than there is, or no line is there", () => {
    const why = (rig: Rig, snubber: Partial<Parameters<typeof withSnubber>[1]>) => {
      const made = withSnubber(rig, { rope, length: 8, hooked: "within", ...snubber });
      return "kind" in made ? made.why : "rigged";
    };
    expect(why(allChain, { length: 1.5, bridle: { beam: 3, heading: 0 } })).toBe("legsTooShort");
    expect(why(allChain, { length: 1.6, bridle: { beam: 3, heading: 0 } })).toBe("rigged");
    expect(why(allChain, { length: 1, bridle: { beam: 3, heading: 0, other: 2.1 } })).toBe("rigged");
    expect(why(allChain, { length: 43, slack: 2 })).toBe("tooLong");
    expect(why(allChain, { length: 43, slack: 1.9 })).toBe("rigged");
    expect(why(allChain, { length: 43, slack: 2, hooked: "veered" })).toBe("rigged");
    expect(why({ ...allChain, rode: [] }, {})).toBe("noChain");
    expect(spansBeam({}, 0.1)).toBe(true);
    expect(topLine(mixed)).toBe(2);
    expect(topLine({ ...mixed, rode: [...mixed.rode, mixed.rode[1]!] })).toBe(2);
  });

  it("divides what hangs between hook and bow; below what the loop pulls by itself the rope is loose", () => {
    const made = withSnubber(allChain, { rope, length: 8, slack: 0.5, hooked: "veered" });
    if ("kind" in made) throw new Error(made.why);
    const slack = loopPull(made.loop!, 8);
    const loose = divide(made, 0.5 * slack);
    expect(loose).toMatchObject({ loop: 0.5 * slack, distance: 8 });
    expect(loose.legs[0]).toBe(0);
    const held = divide(made, 9000);
    expect(held.loop).toBeCloseTo(loopPull(made.loop!, held.distance), 3);
    expect(held.legs[0]).toBeCloseTo(loadAt(rope.stretch, held.distance / 8 - 1), 3);
    expect(held).not.toHaveProperty("turning");
  });
});

describe("a bridle", () => {
  const bridle = { beam: 4, heading: 0, legs: [6, 6] as const, stretch: linear };
  it("of equal legs, square to the pull: each carries half over the cosine of its own slope", () => {
    const at = bridleAt(bridle, 3000);
    const slope = Math.atan2(2, at.along);
    expect(at.across).toBeCloseTo(0, 9);
    for (const leg of at.legs) expect(leg).toBeCloseTo(3000 / (2 * Math.cos(slope)), 6);
    expect(Math.hypot(at.along, 2)).toBeCloseTo(6 * (1 + at.legs[0] / 50_000), 9);
    expect(at.turning).toBeCloseTo(0, 6);
  });

  it("turned or uneven, balances along and across, and turns the boat by what it pulls aside", () => {
    for (const [heading, legs] of [
      [0.5, [6, 6]],
      [-0.3, [5, 7]],
      [0.2, [7, 5]],
    ] as const) {
      const own = { ...bridle, heading, legs };
      const at = bridleAt(own, 2500);
      const ends = [1, -1].map((side) => [side * 2 * Math.sin(heading), side * 2 * Math.cos(heading)] as const);
      let [along, across, moment] = [0, 0, 0];
      for (const [i, [x, y]] of ends.entries()) {
        const [dx, dy] = [at.along - x, at.across - y];
        const length = Math.hypot(dx, dy);
        along += (at.legs[i]! * dx) / length;
        across += (at.legs[i]! * dy) / length;
        moment += (at.legs[i]! * (x * dy - y * dx)) / length;
        expect(at.legs[i]).toBeCloseTo(Math.max(0, 50_000 * (length / legs[i]! - 1)), 4);
      }
      expect(along).toBeCloseTo(2500, 5);
      expect(across).toBeCloseTo(0, 5);
      // The boat feels the legs the other way round than the hook.
      expect(at.turning).toBeCloseTo(moment, 4);
      const [reach, aside] = bridleReach(own);
      const far = ends.map(([x, y]) => Math.hypot(reach - x, aside - y));
      // Neither is drawn beyond its length, and the farthest place draws one of them out at least.
      expect(far[0]).toBeLessThan(legs[0] + 1e-9);
      expect(far[1]).toBeLessThan(legs[1] + 1e-9);
      expect(Math.max(far[0]! - legs[0], far[1]! - legs[1])).toBeCloseTo(0, 9);
    }
  });
});

describe("limits", () => {
  const loads: SnubberLoads = {
    peak: 4000,
    ropeShare: 0.3,
    workingLoadShare: 0.5,
    hook: 3900,
    cleat: 2100,
    anchorAngle: 0.1,
    loopShare: 0.2,
  };
  it.each([
    ["peak", { peak: 2000 }, "peak"],
    ["rope", { ropeShare: 0.15 }, "rope"],
    ["gear", { workingLoadShare: 0.25 }, "gear"],
    ["hook", { hook: 1950 }, "hook"],
    ["cleat", { cleat: 1050 }, "cleat"],
    ["anchor angle", { anchorAngle: 0.05 }, "anchorAngle"],
    ["loop", { loopShare: 0.1 }, "loop"],
  ] as const)("of the %s alone are named by it", (_, limits, reason) => {
    const bit = 1 << (REASONS.indexOf(reason) - 1);
    expect(judge(loads, limits)).toEqual({ reason, mask: bit });
    expect(reasonsOf(bit)).toEqual([reason]);
    const met = Object.fromEntries(Object.entries(limits).map(([key, value]) => [key, 2 * value]));
    // Reached is not passed.
    expect(judge(loads, met)).toEqual({ reason: "within", mask: 0 });
  });

  it("of nothing are passed by anything, not by nothing", () => {
    expect(judge(loads, { anchorAngle: 0, peak: 1 }).reason).toBe("anchorAngle");
    expect(judge({ ...loads, anchorAngle: 0 }, { anchorAngle: 0 })).toEqual({ reason: "within", mask: 0 });
    expect(reasonsOf(0)).toEqual([]);
    expect(reasonsOf(0b1000000011)).toEqual(REASONS.filter((_, code) => [1, 2, 10].includes(code)));
  });
});

describe("those that none beats", () => {
  it("are beaten by one no worse in anything and better in something", () => {
    const at = (...scores: number[][]) => notBeaten(scores);
    expect(at([1, 2], [2, 1], [2, 2])).toEqual([0, 1]);
    expect(at([1, 1], [1, 1])).toEqual([0, 1]);
    expect(at([1, 1], [1, 2])).toEqual([0]);
    expect(at([3], [2], [1])).toEqual([2]);
  });
});

describe("a candidate under its load", () => {
  const load = (mean: number, peak: number) =>
    ({ at: "bow", mean: { value: mean, u: 50 }, peak: { value: peak, u: 80 }, peaked: peak > mean }) as Parameters<
      typeof weigh
    >[1];
  const rig = rigOf(
    "medium: water, depth: 8 m, rollerHeight: 1.5 m",
    "chain: { grade: 30, size: 10 mm, length: 25 m }",
    "rope: { fibre: polyamide, lay: three-strand, diameter: 14 mm, length: 30 m }",
  );
  const candidate = { name: "one", rig, ends: "spliced" } as Parameters<typeof weigh>[0];
  const weighed = (mean: number, peak: number, over: object = {}, limits = {}) => {
    const one = weigh({ ...candidate, ...over } as typeof candidate, load(mean, peak), {}, limits);
    if (one.kind !== "weighed") throw new Error(JSON.stringify(one.why));
    return one;
  };

  it("is settled under the mean and the peak, each part by its own load over what it states", () => {
    const one = weighed(1500, 4000);
    expect(one.mean).toEqual(settle(rig, { at: "bow", newtons: 1500 }));
    expect(one.peak).toEqual(settle(rig, { at: "bow", newtons: 4000 }));
    expect(one.peakFrom).toBe("peaks");
    expect(weighed(1500, 1500).peakFrom).toBe("mean");
    const traced = settleTraced(rig, { at: "bow", newtons: 4000 });
    if (!("settled" in traced)) throw new Error(traced.cause);
    const loads = partLoads(traced);
    for (const [i, part] of rig.rode.entries()) {
      const own = one.strengths[i]!;
      expect(own).toMatchObject({ part: i + 1, name: part.name, load: loads[i] });
      if (part.workingLoad === undefined) expect(own).not.toHaveProperty("workingLoad");
      else expect(own.workingLoad).toBeCloseTo(loads[i]! / part.workingLoad, 12);
      if (part.breakingLoad !== undefined) expect(own.breakingLoad).toBeCloseTo(loads[i]! / part.breakingLoad, 12);
    }
    const shares = one.strengths.map(({ breakingLoad }) => breakingLoad ?? 0);
    expect(one.breakingLoad).toBe(Math.max(...shares));
    expect(one.ropeShare).toBeNull();
    expect(one.price).toBeNull();
  });

  it("gives between the two what its span grows by; nothing where they are one", () => {
    const one = weighed(1500, 4000);
    expect(one.give!.movement).toBeCloseTo(one.peak.span - one.mean.span, 6);
    expect(weighed(1500, 1500).give).toBeNull();
  });

  it("has the ± of the load in its angle, span and peak, by moving mean and peak together", () => {
    const one = weighed(1500, 4000);
    const at = (by: number) => settled4000(by);
    function settled4000(by: number) {
      const answer = settle(rig, { at: "bow", newtons: 4000 + 80 * by });
      if (answer.kind !== "settled") throw new Error(answer.cause);
      return answer;
    }
    const slope = (of: (s: ReturnType<typeof at>) => number) => Math.abs(of(at(0.01)) - of(at(-0.01))) / 0.02;
    // A central difference of a smooth answer: to its fourth digit.
    expect(one.u!.peak).toBeCloseTo(80, 3);
    expect(one.u!.span / slope(({ span }) => span)).toBeCloseTo(1, 3);
    expect(one.u!.anchorAngle / slope(({ anchor }) => anchor.angleToBottom)).toBeCloseTo(1, 3);
    expect(one.cannotMove).toBeNull();
    const sure = weigh(
      candidate,
      { ...load(1500, 4000), mean: { value: 1500, u: 0 }, peak: { value: 4000, u: 0 } },
      {},
      {},
    );
    expect(sure.kind === "weighed" && sure.u).toEqual({ anchorAngle: 0, span: 0, peak: 0 });
    const unasked = weigh(candidate, load(1500, 4000), {}, {}, false);
    expect(unasked.kind === "weighed" && unasked.u).toBeNull();
  });

  it("with a snubber is held by its harder leg over the rope's strength as used, and stows rope and loop", () => {
    const chain = rigOf(
      "medium: water, depth: 8 m, rollerHeight: 1.5 m",
      "chain: { grade: 30, size: 10 mm, length: 45 m }",
    );
    const bridle = { beam: 3, heading: 0.1, other: 9 };
    const snubber = { rope, length: 8, slack: 1, hooked: "veered", bridle } as const;
    const one = weighed(1500, 4000, { rig: chain, snubber });
    const made = withSnubber(chain, snubber);
    if ("kind" in made) throw new Error(made.why);
    const traced = settleTraced(made.rig, { at: "bow", newtons: 4000 });
    if (!("settled" in traced)) throw new Error(traced.cause);
    const { legs } = divide(made, partLoads(traced)[made.line]!);
    expect(one.ropeShare).toBeCloseTo(Math.max(...legs) / strengthInUse(rope, "spliced"), 9);
    const own = chain.rode[0] as LinePart;
    // Veered: chain as it is, both legs, and the loop of reach and slack beside them.
    expect(one.stowed.weight).toBeGreaterThan(own.massPerLength * own.length + rope.massPerLength * 17);
    const alone = weighed(1500, 4000, { rig: chain, snubber: { rope, length: 8, hooked: "veered" } });
    expect(alone.stowed.weight).toBeCloseTo(own.massPerLength * own.length + rope.massPerLength * 8, 6);
    const unriggable = weigh(
      { ...candidate, rig: chain, snubber: { ...snubber, length: 0.5, bridle: { beam: 3, heading: 0 } } },
      load(1500, 4000),
      {},
      {},
    );
    expect(unriggable).toMatchObject({ kind: "notWeighed", why: { kind: "notSnubbed", why: "legsTooShort" } });
  });

  it("passes a limit above it and no other", () => {
    const one = weighed(1500, 4000, { price: 900 });
    const values = {
      workingLoad: one.workingLoad!,
      breakingLoad: one.breakingLoad!,
      strength: one.inUse!.share,
      anchorAngle: one.peak.anchor.angleToBottom,
      peak: 4000,
      weight: one.stowed.weight,
      volume: one.stowed.volume.value,
      span: one.peak.span,
      price: 900,
    };
    for (const [limit, value] of Object.entries(values)) {
      expect(weighed(1500, 4000, { price: 900 }, { [limit]: 0.999 * value }).passed).toEqual([limit]);
      expect(weighed(1500, 4000, { price: 900 }, { [limit]: 1.001 * value }).passed).toEqual([]);
    }
  });

  it("whose rode has no rest under it cannot be weighed, and says why", () => {
    const short = rigOf(
      "medium: water, depth: 8 m, rollerHeight: 1.5 m",
      "chain: { grade: 30, size: 10 mm, length: 9 m }",
    );
    const none = weigh({ ...candidate, rig: short }, load(1500, 4000), {}, {});
    expect(none).toMatchObject({ kind: "notWeighed", name: "one", why: { cause: "shorterThanRise" } });
    // It still weighs what it weighs in the locker.
    expect(none.stowed.weight).toBeCloseTo((short.rode[0] as LinePart).massPerLength * 9, 9);
  });
});
