/** Invented pulls for tests: loads of a lognormal law, ended in every way a pull ends. */
import type { Hold } from "../../src/holding/index.ts";
import { type Rng, rng } from "../../src/statistics/index.ts";

export interface RandomPulls {
  readonly holds: readonly Hold[];
  readonly group: readonly number[];
  readonly x: readonly number[];
}

export type Mixture = "exact" | "right" | "all" | "between" | "ties";

/** @param groups anchors, each a fifth better than the one before */
export function randomPulls(seed: number, n: number, mixture: Mixture, groups = 2): RandomPulls {
  const draw = rng(seed);
  const holds: Hold[] = [];
  const group: number[] = [];
  const x: number[] = [];
  for (let i = 0; i < n; i++) {
    const g = i % groups;
    const angle = 10 * draw.uniform();
    const load = Math.exp(7 + 0.2 * g - 0.03 * angle + 0.5 * draw.normal());
    group.push(g);
    x.push(angle);
    holds.push(seen(load, mixture, draw));
  }
  return { holds, group, x };
}

function seen(load: number, mixture: Mixture, draw: Rng): Hold {
  const limit = Math.exp(7.2 + 0.4 * draw.normal());
  const right = (): Hold => (load < limit ? { kind: "gaveWay", newtons: load } : { kind: "heldTo", newtons: limit });
  const between = (): Hold => {
    const step = 200 + 200 * draw.uniform();
    const low = Math.floor(load / step) * step;
    if (low > limit) return { kind: "heldTo", newtons: limit };
    return low === 0 ? { kind: "neverHeld", newtons: step } : { kind: "between", heldTo: low, gaveWayBy: low + step };
  };
  switch (mixture) {
    case "exact":
      return { kind: "gaveWay", newtons: load };
    case "right":
      return right();
    case "between":
      return between();
    case "all":
      return draw.uniform() < 0.5 ? right() : between();
    case "ties": {
      const hold = right();
      return hold.kind === "gaveWay" || hold.kind === "heldTo"
        ? { ...hold, newtons: Math.max(100, Math.round(hold.newtons / 200) * 200) }
        : hold;
    }
  }
}
