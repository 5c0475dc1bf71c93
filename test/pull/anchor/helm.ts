import type { Chance } from "./chance.ts";

/** What the person at the throttle wants to do, and does when the anchor is seen to drag. */
export interface HelmShape {
  /** Highest thrust, N, in so many steps, each held for about so long, s. */
  readonly top: number;
  readonly steps: number;
  readonly hold: number;
  /** After the last step. */
  readonly ends: "eases" | "cuts" | "cuts to lower" | "cuts between";
  /** Seconds from a drag until the throttle goes; infinite: it stays. */
  readonly minds: number;
  /** Seconds of light load between slack and the first step. */
  readonly light: number;
}

export interface Step {
  readonly from: number;
  readonly to: number;
  readonly thrust: number;
}

export interface Helm {
  thrust(t: number, drags: boolean): number;
  readonly end: number;
  readonly steps: readonly Step[];
}

/** One pull from `start` on. */
export function helmOf(shape: HelmShape, start: number, chance: Chance): Helm {
  const knots: [number, number][] = [[start, 0]];
  const steps: Step[] = [];
  let t = start;
  const to = (level: number, seconds: number): void => {
    t += seconds;
    knots.push([t, level]);
  };
  // The slack is taken up gently.
  to(0.05 * shape.top, 2);
  to(0.05 * shape.top, chance.between(5, 9) + shape.light);
  for (let k = 1; k <= shape.steps; k++) {
    const level = (shape.top * k) / shape.steps;
    to(level, chance.between(6, 14));
    const from = t;
    to(level, shape.hold * chance.between(0.8, 1.3));
    steps.push({ from, to: t, thrust: level });
    if (shape.ends === "cuts between" && k < shape.steps) {
      to(0.03 * shape.top, chance.between(0.5, 1.2));
      to(0.03 * shape.top, chance.between(6, 12));
    }
  }
  if (shape.ends === "cuts to lower") {
    const level = shape.top * chance.between(0.35, 0.6);
    to(level, chance.between(0.4, 1));
    const from = t;
    to(level, chance.between(20, 35));
    steps.push({ from, to: t, thrust: level });
  }
  to(0, shape.ends === "cuts" || shape.ends === "cuts between" ? chance.between(0.5, 1.2) : chance.between(4, 9));
  const end = t;
  let seen = Number.NaN;
  return {
    end,
    steps,
    thrust(now, drags) {
      if (drags && Number.isNaN(seen)) seen = now;
      let level = 0;
      for (let k = 1; k < knots.length; k++) {
        const [t0, v0] = knots[k - 1]!;
        const [t1, v1] = knots[k]!;
        if (now >= t0 && now < t1) level = v0 + ((v1 - v0) * (now - t0)) / (t1 - t0);
      }
      const off = now - seen - shape.minds;
      return off > 0 ? level * Math.max(0, 1 - off / 1.5) : level;
    },
  };
}
