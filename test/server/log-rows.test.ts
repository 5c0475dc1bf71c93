import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { benchWithBook, refused } from "./in-process.ts";

const { send, newId, book } = benchWithBook();
afterAll(() => book.close());

const channels = [{ name: "load", quantity: "load", unit: "N", precision: "double" }] as const;
const newLog = () => book.logs.open({ name: "On deck", channels: [...channels] }).log;
const rowsOf = (log: string) => [...book.logs.rows(log)].flatMap(({ columns }) => [...columns.load!]);
const bring = (log: string, from: number, loads: readonly (number | null)[], finished = false) =>
  send("POST", `/api/1/logs/${log}/rows`, {
    from,
    times_s: loads.map((_, i) => 1000 + from + i),
    columns: { load: loads },
    finished,
  });

describe("rows a device brings", () => {
  it("are in the log once and in order, however they are cut, sent again or overlap", async () => {
    const all = Array.from({ length: 60 }, (_, i) => 10 * i);
    const cuts = fc.array(fc.tuple(fc.nat(59), fc.integer({ min: 1, max: 25 })), { minLength: 1, maxLength: 15 });
    await fc.assert(
      fc.asyncProperty(cuts, async (sendings) => {
        const log = newLog();
        let there = 0;
        for (const [from, many] of sendings) {
          const answer = await bring(log, from, all.slice(from, from + many));
          if (from > there) expect(answer.status).toBe(409);
          else {
            there = Math.max(there, Math.min(60, from + many));
            expect([answer.status, await answer.json()]).toEqual([200, { rows: there }]);
          }
        }
        expect(rowsOf(log)).toEqual(all.slice(0, there));
      }),
      { numRuns: 40 },
    );
  });

  it("end a log once, after which the same answer comes and nothing is added", async () => {
    const log = newLog();
    await bring(log, 0, [1, null, 3], true);
    expect(book.logs.progress(log)).toMatchObject({ kind: "finished", rows: 3 });
    const again = await bring(log, 0, [1, null, 3, 4], true);
    expect([again.status, await again.json()]).toEqual([200, { rows: 3 }]);
    expect(rowsOf(log)).toEqual([1, Number.NaN, 3]);
  });

  it("are refused in one line where the log is not there, a column is uneven or a channel is none of the log's", async () => {
    const log = newLog();
    const lost = await bring(newId(), 0, [1]);
    expect(lost.status).toBe(404);
    expect(await refused(lost)).toMatch(/^404 log:/);
    const uneven = { from: 0, times_s: [1, 2], columns: { load: [1] }, finished: false };
    const short = await send("POST", `/api/1/logs/${log}/rows`, uneven);
    expect(short.status).toBe(400);
    expect(await refused(short)).toMatch(/^400 columns\.load:/);
    const strange = { from: 0, times_s: [1], columns: { angle: [1] }, finished: false };
    expect((await send("POST", `/api/1/logs/${log}/rows`, strange)).status).toBe(400);
    expect(rowsOf(log)).toEqual([]);
  });
});
