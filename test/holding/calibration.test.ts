/** A small calibration by simulation; the whole one is scripts/calibrate-holding.ts, its last output in docs/method-holding.md. */
import { expect, it } from "vitest";
import { calibrated, gathered, uniformity } from "./calibration.ts";

it("truths drawn from the priors rank evenly among what their series say (30 series)", { timeout: 600_000 }, () => {
  const { names, ranks, coveredAll, heldOn } = gathered([...calibrated(30, "weibull", 11)]);
  expect(heldOn).toBeGreaterThan(0.55);
  expect(heldOn).toBeLessThan(0.8);
  // 13 parameters: one in a thousand each, some one in 75 for any; the seed stands still.
  for (const [k, name] of names.entries()) expect(uniformity(ranks[k]!).p, name).toBeGreaterThan(0.001);
  // 390 intervals, correlated within a series: 95 % within three standard errors of some 200 independent ones.
  expect(Math.abs(coveredAll - 0.95)).toBeLessThan(0.047);
});
