import { readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import {
  chanceAbove,
  chanceAhead,
  gather,
  holdingInWind,
  type ModelInput,
  type Posterior,
  type Pull,
  peakLoad,
  sampleOneChain,
  scatterQuantile,
  USUAL_PLAN,
  USUAL_PRIORS,
} from "../../src/holding/index.ts";
import { readRig } from "../../src/rode/index.ts";
import { readBoat } from "../../src/sea/index.ts";
import { rng } from "../../src/statistics/index.ts";

const file = (path: string) => readFileSync(join(import.meta.dirname, "../..", path), "utf8");
const boat = readBoat(file("data/boats/marsh-tern.yaml"), "boat");
const rig = readRig(file("data/demo/marsh-tern-rode.yaml"), "rig");

describe("the chance that the load of a wind stays below what is held", () => {
  let posterior: Posterior;
  beforeAll(() => {
    const draw = rng(4);
    const pulls = Array.from({ length: 60 }, (_, i): Pull => {
      const angle = 1 + 12 * draw.uniform();
      const newtons = Math.exp(8 + (i % 2 === 0 ? 0 : 0.6) - 0.04 * (angle - 5) + 0.3 * draw.normal());
      return {
        anchor: i % 2 === 0 ? "A" : "B",
        mass: 15,
        anchorAngle: (angle * Math.PI) / 180,
        hold: { kind: "gaveWay", newtons },
      };
    });
    const input: ModelInput = { pulls, law: "lognormal", terms: ["anchor", "angle"], random: [], priors: USUAL_PRIORS };
    const plan = { ...USUAL_PLAN, chains: 2, warmUp: 400, draws: 500 };
    posterior = gather(
      input,
      [0, 1].map((chain) => sampleOneChain(input, plan, chain)),
    );
  }, 600_000);

  const curve = (anchor: string) =>
    holdingInWind(posterior, { boat, rig, winds: [5, 8, 12, 16, 20, 25], anchor, mass: 15 }, rng(1)).map((point) => {
      if (point.kind !== "chance") throw new Error(point.kind);
      return point;
    });

  it("falls as the wind grows, lies within its band, and is higher for the anchor that holds more", () => {
    const [a, b] = [curve("A"), curve("B")];
    for (const [k, point] of a.entries()) {
      expect(point.low).toBeLessThanOrEqual(point.chance);
      expect(point.high).toBeGreaterThanOrEqual(point.chance);
      expect(b[k]!.chance).toBeGreaterThanOrEqual(point.chance);
      if (k > 0) expect(point.chance).toBeLessThanOrEqual(a[k - 1]!.chance);
    }
    expect(a[0]!.chance).toBeGreaterThan(0.99);
    expect(a.at(-1)!.chance).toBeLessThan(0.5);
  });

  it("has shares of its band that add up to one", () => {
    for (const { shares, low, high } of curve("A")) {
      // A chance that is one to the last digit has no band to share out.
      if (high === low) continue;
      expect(shares.windLoad + shares.angle + shares.holding).toBeCloseTo(1, 12);
    }
  });

  it("is not told where the rode has no equilibrium", () => {
    expect(peakLoad(boat, 10)!.value).toBeGreaterThan(0);
    const short = { ...rig, rode: rig.rode.slice(0, 1).map((part) => ({ ...part, length: 0.5 })) } as typeof rig;
    expect(holdingInWind(posterior, { boat, rig: short, winds: [10], anchor: "A" }, rng(1))[0]!.kind).toBe(
      "noEquilibrium",
    );
  });
});

describe("loads at a site not pulled at yet", () => {
  it.each(["lognormal", "weibull"] as const)("the quantile of the %s law is where the chance says it is", (law) => {
    for (const p of [0.05, 0.5, 0.9]) {
      for (const spread of [0, 0.1, 0.5]) {
        // Sixteen nodes and 1e-9 of the root.
        expect(chanceAbove(law, scatterQuantile(law, p, spread, 0.3), spread, 0.3)).toBeCloseTo(1 - p, 4);
      }
    }
  });

  it("one pull of two alike is ahead half the time, and of one far ahead nearly always", () => {
    for (const law of ["lognormal", "weibull"] as const) {
      expect(chanceAhead(law, 0, 0.3)).toBeCloseTo(0.5, 12);
      expect(chanceAhead(law, 5, 0.3)).toBeGreaterThan(0.999);
    }
  });
});
