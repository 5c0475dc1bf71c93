import { expect, it } from "vitest";
import { loadFor } from "../../bench/server-load.ts";

// The minute's run, which also holds the server to the rate, is bench/server-load.ts itself; this is the same for so many
// requests, however long they take: how fast they are answered tells how busy the machine is with other tests.
it("requests of six sorts, reads and writes mixed, bring no error and lose no write", async () => {
  const load = await loadFor({ requests: 300 });
  expect(load).toMatchObject({ requests: 300, errors: 0, timeouts: 0, refused: 0 });
  // Each of the ten connections goes round the six sorts.
  expect(load.written).toBeGreaterThanOrEqual(40);
  expect(load.written).toBeLessThanOrEqual(60);
  // Acknowledged writes are in the book; one more may have been under way when the guns fell silent, per connection.
  expect(load.found).toBeGreaterThanOrEqual(load.written);
  expect(load.found).toBeLessThanOrEqual(load.written + 10);
});
