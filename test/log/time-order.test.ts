import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { TimeOrder } from "../../src/log/time-order.ts";

function run(times: readonly number[], { step = 0, ofDay = false } = {}) {
  const order = new TimeOrder(step, ofDay);
  const out = times.map((t, i) => order.next(t, i, i + 2));
  return { out, marks: order.marks.map(({ kind, row }) => [kind, row]), counts: order.counts };
}

describe("the times of a log", () => {
  test("a steady log has no marks", () => expect(run([0, 1, 2, 3, 4, 5]).marks).toEqual([]));
  test("a silence of more than five steps is a gap", () =>
    expect(run([0, 1, 2, 3, 20, 21]).marks).toEqual([["gap", 4]]));
  test("a jump back is a restart, and times stay as stamped", () => {
    const { out, marks } = run([0, 1, 2, 3, 4, 5, 6, 0, 1]);
    expect(marks).toEqual([["restart", 7]]);
    expect(out).toEqual([0, 1, 2, 3, 4, 5, 6, 0, 1]);
  });
  test("a row a few steps late is late, and the clock stays where it was", () =>
    expect(run([0, 1, 2, 4, 3, 5, 6]).marks).toEqual([["late", 4]]));
  test("a clock time runs on over midnight", () => {
    const { out, marks } = run([86398, 86399, 0, 1], { ofDay: true });
    expect(out).toEqual([86398, 86399, 86400, 86401]);
    expect(marks).toEqual([["midnight", 2]]);
  });
  test("a slower rate is a change of rate, not a gap each row", () => {
    const slow = Array.from({ length: 20 }, (_, i) => 3 + 10 * (i + 1));
    const { marks, counts } = run([0, 1, 2, 3, ...slow]);
    expect(marks).toEqual([["rate", 11]]);
    expect(counts.gap).toBe(0);
  });
});

test("taken up again from its state, it goes on as if it had never stopped", () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 0, max: 90000 }), { minLength: 2, maxLength: 60 }),
      fc.nat({ max: 59 }),
      fc.boolean(),
      (times, at, ofDay) => {
        const whole = new TimeOrder(1, ofDay);
        const expected = times.map((t, i) => whole.next(t, i, i));
        const cut = Math.min(at, times.length);
        const first = new TimeOrder(1, ofDay);
        const head = times.slice(0, cut).map((t, i) => first.next(t, i, i));
        const second = new TimeOrder(1, ofDay, JSON.parse(JSON.stringify(first.state())));
        const tail = times.slice(cut).map((t, i) => second.next(t, cut + i, cut + i));
        expect([...head, ...tail]).toEqual(expected);
        expect(second.counts).toEqual(whole.counts);
      },
    ),
    { seed: 28, numRuns: 500 },
  );
});
