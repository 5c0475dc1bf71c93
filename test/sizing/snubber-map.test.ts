import { describe, expect, it } from "vitest";
import { catalogue } from "../../src/gear/index.ts";
import type { Rig } from "../../src/rode/index.ts";
import {
  type MapQuestion,
  REASONS,
  reasonsOf,
  ropeOf,
  type SnubberKind,
  type SnubberMap,
  type Surge,
  snubberMap,
  trySnubber,
} from "../../src/sizing/index.ts";
import { allChain, inAir, rigOf, rubbing } from "./rigs.ts";

const lengths = [0.5, 2, 5, 9, 15];
const diameters = [0.008, 0.0135, 0.02];
const speed: Surge = { kind: "speed", speed: 0.8, mass: 8000 };
const limits = { ropeShare: 0.3, workingLoadShare: 1, loopShare: 0.1, anchorAngle: 0.14 };

function question(rig: Rig, horizontal: number, kind: SnubberKind, surge: Surge): MapQuestion {
  return {
    rig,
    load: { at: "horizontal", newtons: horizontal },
    surge,
    rope: { fibre: "polyamide", lay: "three-strand" },
    kind,
    ends: "spliced",
    limits,
    lengths,
    diameters,
  };
}

function mapOf(asked: MapQuestion): SnubberMap {
  const map = snubberMap(asked, catalogue);
  if (map.kind !== "map") throw new Error(map.cause);
  return map;
}

const chainAndRope = rigOf(
  "medium: water, depth: 8 m, rollerHeight: 1.5 m",
  "rope: { fibre: polyester, lay: three-strand, diameter: 16 mm, length: 15 m }",
  "weight: { mass: 8 kg, density: 7850 }",
  "chain: { grade: 30, size: 10 mm, length: 35 m }",
);

describe("the map of snubbers", () => {
  it.each<[string, Rig, number, SnubberKind, Surge]>([
    ["one rope", allChain, 2500, { hooked: "veered" }, speed],
    ["one rope, chain with friction", rubbing, 900, { hooked: "veered" }, speed],
    ["a loop beside it", allChain, 1500, { hooked: "veered", slack: 3 }, speed],
    ["within the rode", allChain, 2500, { hooked: "within", slack: 3 }, speed],
    [
      "a bridle at a heading",
      allChain,
      1500,
      { hooked: "veered", slack: 3, bridle: { beam: 1.2, heading: 0.4 } },
      speed,
    ],
    ["over a distance", allChain, 1500, { hooked: "veered" }, { kind: "distance", distance: 0.9 }],
    ["a heavy hook, in air", inAir, 2500, { hooked: "veered", hook: { mass: 4, density: 7850 } }, speed],
    ["rope below the chain", chainAndRope, 1500, { hooked: "veered" }, speed],
  ])("agrees with each snubber tried by itself: %s", (_, rig, mean, kind, surge) => {
    const asked = question(rig, mean, kind, surge);
    const map = mapOf(asked);
    expect(map.oneByOne).toBe(false);
    diameters.forEach((diameter, j) => {
      lengths.forEach((length, i) => {
        const cell = j * lengths.length + i;
        const rope = ropeOf({ ...asked.rope, diameter }, catalogue, "rope");
        const exact = trySnubber(rig, asked.load, surge, { ...kind, rope, length }, limits);
        if (exact.kind !== "tried") {
          expect(REASONS[map.reason[cell]!]).toBe(exact.kind === "notTaken" ? "notTaken" : "unriggable");
          return;
        }
        // What the map promises: a span straight in ln H between rungs a tenth apart, a rope straight on its slope (2 %), and
        // shares of the surge between the places that were run (6 % where the sea moves the boat whatever the rode does).
        const close = surge.kind === "distance" ? 0.06 : 0.02;
        expect(Math.abs(map.peak[cell]! / exact.loads.peak - 1)).toBeLessThan(close);
        expect(Math.abs(map.ropeShare[cell]! - exact.loads.ropeShare)).toBeLessThan(
          close * exact.loads.ropeShare + 0.004,
        );
        expect(Math.abs(map.anchorAngle[cell]! - exact.loads.anchorAngle)).toBeLessThan(
          surge.kind === "distance" ? 0.015 : 0.005,
        );
        expect(Math.abs(map.movement[cell]! - exact.snatch.give.movement)).toBeLessThan(
          close * exact.snatch.give.movement + 0.003,
        );
        // Where no limit is nearly met, the verdict is the same.
        const near = [
          exact.loads.ropeShare / limits.ropeShare,
          exact.loads.workingLoadShare,
          exact.loads.anchorAngle / limits.anchorAngle,
          exact.loads.loopShare / limits.loopShare,
        ].some((ratio) => Math.abs(ratio - 1) < close + 0.04);
        if (!near) expect(map.mask[cell]).toBe(exact.verdict.mask);
      });
    });
  });

  it("tells the reason of every cell that is not within the limits", () => {
    const map = mapOf(question(allChain, 2500, { hooked: "veered" }, speed));
    const seen = new Set<string>();
    map.reason.forEach((code, cell) => {
      expect(code === 0).toBe(map.mask[cell] === 0);
      if (code !== 0) expect(reasonsOf(map.mask[cell]!)).toContain(REASONS[code]);
      seen.add(REASONS[code]!);
    });
    for (const reason of ["within", "rope", "gear"]) expect(seen).toContain(reason);
  });

  it("settles cell by cell where a current or a slope forbids the table, and says so", () => {
    const sloping = rigOf(
      "medium: water, depth: 8 m, rollerHeight: 1.5 m, bottomSlope: 3 deg",
      "chain: { grade: 30, size: 10 mm, length: 45 m }",
    );
    const asked = { ...question(sloping, 1500, { hooked: "veered" }, speed), lengths: [6], diameters: [0.012] };
    const map = mapOf(asked);
    expect(map.oneByOne).toBe(true);
    const rope = ropeOf({ ...asked.rope, diameter: 0.012 }, catalogue, "rope");
    const exact = trySnubber(sloping, asked.load, speed, { rope, length: 6, hooked: "veered" }, limits);
    if (exact.kind !== "tried") throw new Error(exact.kind);
    expect(map.peak[0]).toBe(exact.loads.peak);
  });

  it("says when the steady load has no equilibrium, and what rope there is not", () => {
    expect(snubberMap(question(inAir, 2500, { hooked: "veered" }, speed), catalogue).kind).toBe("map");
    const short = rigOf("medium: air, rise: 9 m", "chain: { grade: 30, size: 10 mm, length: 8 m }");
    expect(snubberMap(question(short, 2500, { hooked: "veered" }, speed), catalogue).kind).toBe("noEquilibrium");
    expect(() =>
      snubberMap(
        { ...question(inAir, 2500, { hooked: "veered" }, speed), rope: { fibre: "hemp", lay: "three-strand" } },
        catalogue,
      ),
    ).toThrow(/rope\.fibre/);
  });

  it("fills 40 × 30 cells for the price of a few snubbers tried by themselves, so that limits can be dragged", () => {
    const kind: SnubberKind = { hooked: "veered", slack: 3 };
    const asked = {
      ...question(allChain, 2000, kind, speed),
      lengths: Array.from({ length: 40 }, (_, i) => 1 + 0.5 * i),
      diameters: Array.from({ length: 30 }, (_, i) => 0.008 + 0.0005 * i),
    };
    const rope = ropeOf({ ...asked.rope, diameter: 0.014 }, catalogue, "rope");
    const map = leastTime(() => mapOf(asked));
    const one = leastTime(() => trySnubber(allChain, asked.load, speed, { ...kind, rope, length: 8 }, limits));
    // 1200 cells for less than the price of 60 tried one by one; seen here: the price of one.
    expect(map / one).toBeLessThan(60);
  });
});

/** Processor time of the quickest of some runs, ms: whatever else a machine is busy with does not count. */
function leastTime(run: () => unknown): number {
  let best = Number.POSITIVE_INFINITY;
  for (let n = 0; n < 12; n++) {
    const start = process.cpuUsage();
    run();
    const { user, system } = process.cpuUsage(start);
    best = Math.min(best, (user + system) / 1000);
  }
  return best;
}
