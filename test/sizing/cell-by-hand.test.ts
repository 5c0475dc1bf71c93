/** One cell of the map, which the map makes thousands of, against the same snubber settled exactly; and a bridle as one line. */
import { describe, expect, it } from "vitest";
import { catalogue } from "../../src/gear/index.ts";
import { type LinePart, partLoads, settleTraced } from "../../src/rode/index.ts";
import { bridleAt, bridleLine } from "../../src/sizing/bridle.ts";
import { bridleReach } from "../../src/sizing/bridle-shape.ts";
import { loadAt, ropeOf, type Surge } from "../../src/sizing/index.ts";
import { cornersOf } from "../../src/sizing/law.ts";
import { strengthInUse } from "../../src/sizing/limits.ts";
import { snatchForce } from "../../src/sizing/snatch.ts";
import { divide, type Snubber, withSnubber } from "../../src/sizing/snubber.ts";
import { cellSolver } from "../../src/sizing/snubber-cell.ts";
import { columnOf, type SnubberKind, unitLaw } from "../../src/sizing/snubber-column.ts";
import { allChain, mixed, settled } from "./rigs.ts";

const rope = ropeOf({ fibre: "polyamide", lay: "three-strand", diameter: 0.014 }, catalogue, "rope");
const H0 = 1500;
const speed: Surge = { kind: "speed", speed: 0.5, mass: 6000 };
const distance: Surge = { kind: "distance", distance: 0.8 };

function cell(
  kind: SnubberKind,
  length: number,
  surge: Surge,
  share = 1,
  rig = allChain,
  ends: "spliced" | "knotted" = "spliced",
) {
  const top = rig.rode.findLastIndex((part) => part.kind === "line");
  const chain = rig.rode[top] as LinePart;
  const column = columnOf(rig, chain, kind, unitLaw(rope.stretch, rope.breakingLoad), length);
  const solver = cellSolver(rig, top, kind, surge, H0, 14 + (kind.slack ?? 0));
  return { end: solver.solve(rope, column, ends, share), ...solver.answer };
}

describe.each<[string, SnubberKind, number]>([
  ["veered, by itself", { hooked: "veered" }, 9],
  ["veered, with a loop of chain beside it", { hooked: "veered", slack: 3 }, 9],
  ["within the rode", { hooked: "within", slack: 2 }, 12],
  ["with a heavy hook", { hooked: "veered", hook: { mass: 4, density: 7850 } }, 6],
  ["of two legs", { hooked: "veered", slack: 3, bridle: { beam: 1.6, heading: 0.2 } }, 8],
])("a snubber %s", (_, kind, length) => {
  it.each([
    ["speed", speed],
    ["distance", distance],
  ] as const)("over a %s comes to what it comes to by its own curve, all that is told of it", (_name, surge) => {
    const found = cell(kind, length, surge);
    expect(found.end).toBe("taken");
    const snubbed = withSnubber(allChain, { ...kind, rope, length } as Snubber);
    if ("kind" in snubbed) throw new Error(snubbed.why);
    const H = snatchForce(snubbed.rig, H0, surge);
    const traced = settleTraced(snubbed.rig, { at: "horizontal", newtons: H });
    if (!("settled" in traced)) throw new Error(traced.cause);
    const { bow, anchor, span } = traced.settled;
    const loads = partLoads(traced);
    const parted = divide(snubbed, loads[snubbed.line]!);
    const leg = Math.max(...parted.legs);
    const close = (what: string, value: number, exact: number, within = 0.04) =>
      expect(Math.abs(value / exact - 1), `${what}: ${value} for ${exact}`).toBeLessThan(within);
    // The rope is taken as straight, and the span as straight between the rungs.
    close("peak", found.loads.peak, bow.tension);
    close("movement", found.movement, span - settled(snubbed.rig, H0).span, 0.03);
    close("cleat", found.loads.cleat, leg);
    close("ropeShare", found.loads.ropeShare, leg / strengthInUse(rope, "spliced"));
    close("hook", found.loads.hook, loads[snubbed.line]! - parted.loop);
    expect(Math.abs(found.loads.anchorAngle - anchor.angleToBottom)).toBeLessThan(0.01);
    expect(Math.abs(found.loads.loopShare - parted.loop / loads[snubbed.line]!)).toBeLessThan(0.03);
    const chain = allChain.rode[0]!;
    close("workingLoadShare", found.loads.workingLoadShare, loads[0]! / chain.workingLoad!);
  });
  it("takes more the larger the share of the surge, and holds less knotted", () => {
    const [half, whole, twice] = [0.5, 1, 2].map((share) => ({ ...cell(kind, length, speed, share).loads }));
    expect(half!.peak).toBeLessThan(whole!.peak);
    expect(whole!.peak).toBeLessThan(twice!.peak);
    const knotted = cell(kind, length, speed, 1, allChain, "knotted").loads;
    expect(knotted.ropeShare / whole!.ropeShare).toBeCloseTo(
      strengthInUse(rope, "spliced") / strengthInUse(rope, "knotted"),
      9,
    );
    expect(knotted.cleat).toBeCloseTo(whole!.cleat, 6);
  });
});

it("a cell that cannot be rigged, or never takes its surge, says so", () => {
  expect(cell({ hooked: "within" }, 50, speed).end).toBe("unriggable");
  expect(cell({ hooked: "veered" }, 9, { kind: "speed", speed: 10, mass: 1e7 }).end).toBe("notTaken");
  expect(cell({ hooked: "veered" }, 9, { kind: "distance", distance: 500 }).end).toBe("notTaken");
  expect(cell({ hooked: "veered" }, 6, speed, 1, mixed).end).toBe("taken");
});

describe("a bridle as one line", () => {
  const bridle = { beam: 2, heading: 0.25, legs: [7, 7.5] as const, stretch: rope.stretch };
  const strongest = cornersOf(rope.stretch).at(-1)![1];
  it("is as long as it reaches, laid down from a hundredth to 85 hundredths of what both legs hold", () => {
    const { length, stretch } = bridleLine(bridle);
    expect(length).toBe(bridleReach(bridle)[0]);
    if (stretch.kind !== "curve") throw new Error(stretch.kind);
    const shares = stretch.points.map(([, load]) => load / (2 * strongest));
    expect(shares.at(-1)).toBeCloseTo(0.85, 9);
    expect(shares[0]).toBeLessThan(0.06);
    expect(shares.length).toBeGreaterThan(6);
    for (const [strain, load] of stretch.points)
      expect((1 + strain) * length).toBeCloseTo(bridleAt(bridle, load).along, 9);
    // Between them it is straight, off by little of the way it gives.
    for (const share of [0.07, 0.12, 0.25, 0.4, 0.6]) {
      const load = 2 * share * strongest;
      const exact = bridleAt(bridle, load).along / length - 1;
      expect(Math.abs(loadAt(stretch, exact) / load - 1)).toBeLessThan(0.06);
    }
  });
});
