import { describe, expect, it } from "vitest";
import { atDecimal, roomBefore } from "../../src/web/controls/at-decimal.ts";

describe("numbers under one another by their decimal sign", () => {
  it.each([
    ["12.34 ± 0.40 kN", ["12", ".34 ± 0.40 kN"]],
    ["−0.7°", ["−0", ".7°"]],
    ["+1.2", ["+1", ".2"]],
    ["191 N", ["191", " N"]],
    ["4.2 (3.1 to 5.3)", ["4", ".2 (3.1 to 5.3)"]],
    ["7", ["7", ""]],
    ["–", null],
    ["", null],
    ["no equilibrium", null],
  ])("%j stands at its sign", (text, parts) => {
    expect(atDecimal(text)).toEqual(parts);
  });
  it("a column has room for the most figures before the sign, and a minus, whatever stands behind it", () => {
    expect(roomBefore(["9.5 kN", "−12.25 kN", "–", null, undefined, "no equilibrium"])).toBe(3);
    expect(roomBefore(["0.123456789", "7"])).toBe(1);
    expect(roomBefore(["–", ""])).toBe(0);
    expect(roomBefore([])).toBe(0);
  });
});
