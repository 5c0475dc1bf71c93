import { expect, it } from "vitest";
import { loadFor } from "../../bench/server-load.ts";

// The minute's run is bench/server-load.ts itself; this is three seconds of the same.
it("200 requests a second, reads and writes mixed, bring no error and lose no write", async () => {
  const load = await loadFor(3);
  expect(load).toMatchObject({ errors: 0, timeouts: 0, refused: 0 });
  // The rate was really offered: a server that stalls answers fewer. A tenth is left for start and end of so short a run.
  expect(load.requests).toBeGreaterThan(0.9 * 200 * 3);
  // Acknowledged writes are in the book; one more may have been under way when the guns fell silent, per connection.
  expect(load.written).toBeGreaterThan(50);
  expect(load.found).toBeGreaterThanOrEqual(load.written);
  expect(load.found).toBeLessThanOrEqual(load.written + 10);
}, 60_000);
