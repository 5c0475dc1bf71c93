import { likelyMean, type Tried } from "../../statistics/index.ts";
import type { Measured } from "../trace/trace.ts";
import type { Known } from "./found-movements.ts";
import type { Ramp } from "./ramp.ts";

/** Kinds of error less likely than this are not looked at. */
const LEAST = 0.05;
/** Beginnings and ends of a movement that are tried, in steps either side of those found, and how many of each. */
const TRIED = { least: 12, most: 60, beginnings: 41, ends: 15 };

/**
 * When a movement began, in steps of the grid: over all beginnings and ends near those found, each as likely as it makes
 * the fixes, its size free.
 */
export function beginsAt({ model, direction, weights, ramps }: Known, found: Ramp): Measured {
  const y = model.along(direction.value);
  const others = ramps.filter((r) => r !== found);
  const rests = [...weights].flatMap((weight, error) =>
    weight > LEAST ? [{ weight, rest: model.residual(error, y, others) }] : [],
  );
  const reach = Math.min(TRIED.most, Math.max(TRIED.least, found.to - found.from));
  const tried: Tried[] = [];
  for (let i = 0; i < TRIED.beginnings; i++) {
    const from = found.from + reach * ((2 * i) / (TRIED.beginnings - 1) - 1);
    if (from < model.stretch.from) continue;
    for (let j = 0; j < TRIED.ends; j++) {
      const to = found.to + reach * ((2 * j) / (TRIED.ends - 1) - 1);
      if (to < from + 1 || to > model.stretch.to) continue;
      for (const { weight, rest } of rests) {
        const { value, u, evidence } = rest({ from, to });
        if (value > 0) tried.push({ at: from, log: evidence + Math.log(u * weight) });
      }
    }
  }
  const likely = likelyMean(tried);
  if (likely === null) return { value: found.from, u: reach };
  // A fix stands for a step of the grid.
  return { value: likely.mean, u: Math.sqrt(likely.variance + 1 / 12) };
}
