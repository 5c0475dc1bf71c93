import { describe, expect, it } from "vitest";
import { settle } from "../../src/rode/index.ts";
import {
  catenaryEnd,
  catenaryEndCertainty,
  giveBetween,
  giveCurve,
  givePerLoad,
  snatch,
  snatchCertainty,
} from "../../src/sizing/index.ts";
import { allChain, inAir, kelleted, mixed, rigOf, settled, straightRope } from "./rigs.ts";

describe("where catenary stops helping", () => {
  it("gives per load what giveBetween gives over a small step", () => {
    for (const rig of [allChain, mixed, inAir]) {
      for (const H of [500, 1500, 5000]) {
        const give = giveBetween(rig, H / 1.0005, H * 1.0005);
        const per = givePerLoad(rig, H, "horizontal")!;
        if (give.kind !== "give") throw new Error(give.kind);
        const step = H * 1.0005 - H / 1.0005;
        // Differences of second order over steps of 1e-3.
        expect(per.whole / (give.movement / step)).toBeCloseTo(1, 4);
        expect(per.weight / ((give.shares.lifting.movement + give.shares.kellet.movement) / step)).toBeCloseTo(1, 4);
      }
    }
  });

  it("at the load found, catenary gives just what is asked; below it more, above it less", () => {
    const asked = { ask: "perLoad", give: 0.2 / 1000, at: "bow" } as const;
    const fade = catenaryEnd(allChain, asked);
    if (fade.kind !== "fades") throw new Error(fade.kind);
    const H = fade.settled.horizontal;
    expect(givePerLoad(allChain, H, "bow")!.weight / asked.give).toBeCloseTo(1, 6);
    expect(givePerLoad(allChain, 0.8 * H, "bow")!.weight).toBeGreaterThan(asked.give);
    for (const times of [1.05, 1.5, 3, 10])
      expect(givePerLoad(allChain, times * H, "bow")!.weight).toBeLessThan(asked.give);
  });

  it("of a need: from the load found up to the top, weight gives that share of it", () => {
    const fade = catenaryEnd(mixed, { ask: "ofNeed", need: 1, share: 0.5, upTo: 8000, at: "bow" });
    if (fade.kind !== "fades") throw new Error(fade.kind);
    const top = settle(mixed, { at: "bow", newtons: 8000 });
    if (top.kind !== "settled") throw new Error(top.kind);
    const give = giveBetween(mixed, fade.settled.horizontal, top.horizontal);
    if (give.kind !== "give") throw new Error(give.kind);
    // Small steps of fourth order against the adaptive integral.
    expect(give.shares.lifting.movement + give.shares.kellet.movement).toBeCloseTo(0.5, 5);
  });

  it("finds the last load for a kellet whose give comes and goes", () => {
    const fade = catenaryEnd(kelleted, { ask: "perLoad", give: 0.3 / 1000, at: "bow" });
    if (fade.kind !== "fades") throw new Error(fade.kind);
    for (const times of [1.02, 1.3, 2, 5])
      expect(givePerLoad(kelleted, times * fade.settled.horizontal, "bow")!.weight).toBeLessThan(0.3 / 1000);
  });

  it("says so when it never gives so much, or always does", () => {
    expect(catenaryEnd(straightRope, { ask: "perLoad", give: 10, at: "bow" }).kind).toBe("neverEnough");
    expect(catenaryEnd(allChain, { ask: "perLoad", give: 1e-15, at: "bow" }).kind).toBe("alwaysEnough");
    expect(catenaryEnd(allChain, { ask: "ofNeed", need: 100, share: 1, upTo: 5000, at: "bow" }).kind).toBe(
      "neverEnough",
    );
    const short = rigOf("medium: air, rise: 9 m", "chain: { grade: 30, size: 10 mm, length: 8 m }");
    expect(catenaryEnd(short, { ask: "ofNeed", need: 1, share: 1, upTo: 5000, at: "bow" }).kind).toBe("noEquilibrium");
  });
});

describe("the curve of give by part", () => {
  it("adds up to the span's own growth, and to giveBetween part by part", () => {
    const loads = Array.from({ length: 40 }, (_, i) => 300 * 1.1 ** i);
    const curve = giveCurve(mixed, loads);
    const last = loads.length - 1;
    const give = giveBetween(mixed, loads[0]!, loads[last]!);
    if (give.kind !== "give") throw new Error(give.kind);
    let moved = 0;
    give.parts.forEach((part, i) => {
      const [lift, stretch] = [curve.lift[i * loads.length + last]!, curve.stretch[i * loads.length + last]!];
      // A tenth to a step: fourth order leaves some 1e-4 of the movement, kinks included.
      expect(Math.abs(lift - part.lift.movement)).toBeLessThan(1e-3 * give.movement);
      expect(Math.abs(stretch - part.stretch.movement)).toBeLessThan(1e-3 * give.movement);
      expect(curve.liftEnergy[i * loads.length + last]).toBeCloseTo(part.lift.energy, 6);
      moved += lift + stretch;
    });
    expect(Math.abs(moved / (curve.span[last]! - curve.span[0]!) - 1)).toBeLessThan(1e-3);
  });

  it("leaves out loads that have no equilibrium", () => {
    const curve = giveCurve(
      rigOf("medium: air, rise: 9 m", "chain: { grade: 30, size: 10 mm, length: 8 m }"),
      [500, 800],
    );
    expect(Array.from(curve.span)).toEqual([Number.NaN, Number.NaN]);
  });
});

describe("uncertainty", () => {
  const rig = { ...mixed, uncertainty: { massPerLength: 0.03, rise: 0.2 } };
  const surge = { kind: "speed", speed: 0.5, mass: 8000 } as const;

  it("of a snatch: each input's share, and what scales as it should", () => {
    const at = { at: "horizontal", newtons: 900 } as const;
    const found = snatch(rig, at, surge);
    if (found.kind !== "snatch") throw new Error(found.kind);
    const peak = found.peak.bow.tension;
    const both = snatchCertainty(rig, at, surge, { speed: 0.05, mass: 800, load: 90, stretch: 0.12 }, peak)!;
    expect(both.shares.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
    expect(both.shares.map(({ name }) => name)).toEqual([
      "mass per length",
      "rise",
      "stretch of the rope",
      "rope worked quickly",
      "stretch of the chain",
      "steady load",
      "speed",
      "mass that moves",
    ]);
    // What no rig states is there all the same: how links are shaped, and how stiff a rope is when it is worked quickly.
    const alone = snatchCertainty({ ...mixed, uncertainty: {} }, at, surge, {}, peak)!;
    expect(alone.shares.map(({ name }) => name)).toEqual(["rope worked quickly", "stretch of the chain"]);
    expect(alone.u!).toBeGreaterThan(0.005 * peak);
  });

  it("of the fade: a heavier chain by so much keeps its give to a load as much higher", () => {
    // All weights and loads times k: the same shapes; give per load is then 1/k as large. With the give asked scaled too,
    // the fade moves by k. Here only weight moves, so the exponent is read off the law give ∝ w²/H³ of a lifted chain.
    const chain = { ...inAir, uncertainty: { massPerLength: 0.01 } };
    const asked = { ask: "perLoad", give: 1e-5, at: "horizontal" } as const;
    const fade = catenaryEnd(chain, asked);
    if (fade.kind !== "fades") throw new Error(fade.kind);
    const load = fade.settled.horizontal;
    expect(fade.settled.grounded).toBe(0);
    const certain = catenaryEndCertainty(chain, asked, load)!;
    // H ∝ w^(2/3), nearly taut; 3 % covers what is left of the sag.
    expect(Math.abs(certain.u! / load / ((2 / 3) * 0.01) - 1)).toBeLessThan(0.03);
    expect(settled(chain, load).span).toBeGreaterThan(0);
  });
});
