import { describe, expect, it } from "vitest";
import { lineStyle } from "../../src/figure/index.ts";

describe("the k-th of several lines", () => {
  const nine = Array.from({ length: 9 }, (_, k) => lineStyle(k));
  it("has a look of its own among nine, and is as another only beyond", () => {
    expect(new Set(nine.map(({ role, stroke }) => `${role} ${stroke}`)).size).toBe(9);
    expect(lineStyle(9)).toEqual(lineStyle(0));
  });
  it("differs from the line before it in colour and in stroke", () => {
    for (let k = 1; k < 9; k++) {
      expect(nine[k]!.role).not.toBe(nine[k - 1]!.role);
      expect(nine[k]!.stroke).not.toBe(nine[k - 1]!.stroke);
    }
  });
});
