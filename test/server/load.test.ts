import { expect, it } from "vitest";
import { loadFor } from "../../bench/server-load.ts";

// The minute's run, which also holds the server to the rate, is bench/server-load.ts itself; this is three seconds of the
// same. How many requests get through in three seconds is left out here: it tells how busy the machine is with other
// tests, not whether the server errs.
it("200 requests a second, reads and writes mixed, bring no error and lose no write", async () => {
  const load = await loadFor(3);
  expect(load).toMatchObject({ errors: 0, timeouts: 0, refused: 0 });
  // Each of the six sorts of request was made several times over.
  expect(load.requests).toBeGreaterThan(60);
  // Acknowledged writes are in the book; one more may have been under way when the guns fell silent, per connection.
  expect(load.written).toBeGreaterThan(5);
  expect(load.found).toBeGreaterThanOrEqual(load.written);
  expect(load.found).toBeLessThanOrEqual(load.written + 10);
}, 60_000);
