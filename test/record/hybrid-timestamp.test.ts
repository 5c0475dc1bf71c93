import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { LATEST_MS, millisecondsOf, nextTimestamp, TIMESTAMP, timestampOf } from "../../src/record/index.ts";

describe("a stamp", () => {
  it("is milliseconds and a counter, as text that sorts as it counts", () => {
    expect(timestampOf(1_937_000_000_000)).toBe("001937000000000.00000");
    expect(timestampOf(12.9, 7)).toBe("000000000000012.00007");
    expect(timestampOf(-3)).toBe("000000000000000.00000");
    fc.assert(
      fc.property(fc.nat(2 ** 31), fc.nat(2 ** 31), fc.nat(99_999), fc.nat(99_999), (a, b, i, j) => {
        const less = a < b || (a === b && i < j);
        expect(timestampOf(a, i) < timestampOf(b, j)).toBe(less);
        expect(millisecondsOf(timestampOf(a, i))).toBe(a);
        expect(timestampOf(a, i)).toMatch(TIMESTAMP);
      }),
    );
  });

  it("is by the clock where that is ahead of the last, else just after the last", () => {
    expect(nextTimestamp(undefined, 5)).toBe(timestampOf(5));
    expect(nextTimestamp(timestampOf(4, 99), 5)).toBe(timestampOf(5));
    expect(nextTimestamp(timestampOf(5), 5)).toBe(timestampOf(5, 1));
    expect(nextTimestamp(timestampOf(5, 7), 5)).toBe(timestampOf(5, 8));
    expect(nextTimestamp(timestampOf(9, 3), 5)).toBe(timestampOf(9, 4));
    expect(nextTimestamp(timestampOf(9, 99_998), 5)).toBe(timestampOf(9, 99_999));
    expect(nextTimestamp(timestampOf(9, 99_999), 5)).toBe(timestampOf(10));
  });

  it("comes after the last for good, also after the last moment one from elsewhere may carry", () => {
    let last = timestampOf(LATEST_MS, 99_999);
    for (let i = 0; i < 5; i++) {
      const next = nextTimestamp(last, 0);
      expect(next > last).toBe(true);
      expect(next).toMatch(TIMESTAMP);
      last = next;
    }
    expect(new Date(LATEST_MS).toISOString()).toBe("9999-12-31T23:59:59.999Z");
  });

  it.each(["1.0", "0019370000000001.00000", "001937000000000.0000", "x001937000000000.00000", "001937000000000-00000"])(
    "cannot be %j",
    (text) => expect(TIMESTAMP.test(text)).toBe(false),
  );
});
