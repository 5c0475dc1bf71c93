import { expect, test } from "vitest";
import { fuzzLogs } from "./log-mutations.ts";

test("3000 mutated logs are read, asked about or refused in clear lines; none breaks the reader", () => {
  const totals = fuzzLogs(1, 3000);
  expect(totals.read + totals.asks + totals.refused).toBe(3000);
  // The mutations reach every outcome, so that none of them is tested by nothing.
  expect(Math.min(totals.read, totals.asks, totals.refused)).toBeGreaterThan(100);
  expect(totals.rows).toBeGreaterThan(10_000);
});
