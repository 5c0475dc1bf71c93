/** Where reading and printing turn over: signs, second units, rests of a text, long names. */
import { describe, expect, it } from "vitest";
import { z } from "zod";
import { checkShape, formatQuantity, parseQuantity, roundToUncertainty, unitFor } from "../../src/quantity/index.ts";

const refusal = (text: string, dimension: Parameters<typeof parseQuantity>[1]): string => {
  try {
    parseQuantity(text, dimension, "place");
  } catch (error) {
    return (error as Error).message;
  }
  return "";
};

describe("a value below zero", () => {
  it.each([
    [-1e20, 1e18, "-1.000e20", "0.010e20"],
    [-1.5e-9, 2e-11, "-1.500e-9", "0.020e-9"],
    [-1, 1e-30, "-1", "1e-30"],
    [-99.96, 0.995, "-100.0", "1.0"],
  ])("%d ± %d is rounded as its size is: %s ± %s", (value, u, shown, shownU) => {
    expect(roundToUncertainty(value, u)).toEqual({ value: shown, u: shownU });
  });
  it.each(["m", "kg/m", "deg"])("reads with its sign in a pair and in a fraction", (unit) => {
    const dimension = unit === "m" ? "length" : unit === "deg" ? "angle" : "massPerLength";
    expect(parseQuantity(`-3/8 ${unit}`, dimension, "place")).toBe(-parseQuantity(`3/8 ${unit}`, dimension, "place"));
  });
  it("of two units is below zero in both", () => {
    expect(parseQuantity(`-5' 6"`, "length", "place")).toBeCloseTo(-66 * 0.0254, 15);
    expect(parseQuantity("- 8 lb 4 oz", "mass", "place")).toBeCloseTo(-8.25 * 0.45359237, 14);
  });
});

describe("a proportion", () => {
  it.each([
    ["7:2", 3.5],
    ["2:7", 2 / 7],
    ["-3:4", -0.75],
    ["1 1/2:3", 0.5],
  ])("%s is divided out", (text, value) => {
    expect(parseQuantity(text, "ratio", "place")).toBeCloseTo(value, 15);
  });
  it.each(["5:1 m", "5:x", "5:1:2", "5:"])("%s is none", (text) => {
    expect(refusal(text, "ratio")).toBe(`place: "${text}"; a ratio is expected, such as "5:1"`);
  });
});

describe("two units in one quantity", () => {
  it.each([
    ["2 h 30 min", "time", 9000],
    ["3 min 5 s", "time", 185],
    ["1 lb 15 oz", "mass", (31 / 16) * 0.45359237],
    [`6' 11 1/2"`, "length", 83.5 * 0.0254],
  ] as const)("%s", (text, dimension, si) => {
    expect(parseQuantity(text, dimension, "place")).toBeCloseTo(si, 12);
  });
  it("less than one of the first in the second: 60 min is an hour, and is refused", () => {
    expect(refusal("1 h 60 min", "time")).toContain("less than one of it in the second, is expected");
    expect(refusal("1 lb 16 oz", "mass")).toContain("less than one of it in the second, is expected");
    expect(refusal("1 h 59.9 min", "time")).toBe("");
    expect(refusal("1.5 h 3 min", "time")).toContain("a whole number of the first unit");
  });
  it("a rest after a number in it is no number", () => {
    expect(refusal("5 6 ft 3 in", "length")).toBe('place: "5 6 ft 3 in"; a length is expected, such as "12 m"');
    expect(refusal("5 ft 3 4 in", "length")).toBe('place: "5 ft 3 4 in"; a length is expected, such as "12 m"');
  });
  it("of another dimension say which they are", () => {
    expect(refusal("5 ft 3 in", "mass")).toBe('place: "5 ft 3 in" is a length; a mass is expected, such as "12 kg"');
    expect(refusal("1 h 5 min", "length")).toBe('place: "1 h 5 min" is a time; a length is expected, such as "12 m"');
  });
});

describe("units", () => {
  it("divide by the one unit after a slash: another after it needs a slash of its own", () => {
    for (const text of ["5 kg/m·s", "5 kg/m s", "5 kg/m*s"])
      expect(refusal(text, "massPerLength"), text).toContain("has a unit that is not known here");
    expect(parseQuantity("9.8 m/s/s", "acceleration", "place")).toBeCloseTo(9.8, 15);
    expect(parseQuantity("3 ft per s per s", "acceleration", "place")).toBeCloseTo(3 * 0.3048, 15);
  });
  it("count the unit after a number, never no times", () => {
    expect(parseQuantity("5 lb/100 ft", "massPerLength", "place")).toBeCloseTo((5 * 0.45359237) / 30.48, 15);
    expect(refusal("5 lb/0 ft", "massPerLength")).toContain("not known here");
    expect(refusal("5 100 lb/ft", "massPerLength")).not.toBe("");
    expect(refusal("5 m0", "length")).toContain("not known here");
  });
  it("chosen are shown with raised digits and the sign of a degree, without blanks round them", () => {
    expect(unitFor("angle", "us", " degrees ")).toBe("°");
    expect(unitFor("area", "metric", " ft^2 ")).toBe("ft²");
    expect(unitFor("density", "metric", "lb/ft3")).toBe("lb/ft³");
    expect(formatQuantity(1, "energy", { unit: "ft*lbf", digits: 6 })).toBe("0.737562 ft·lbf");
  });
});

it("a long name of a field is told up to its fortieth sign", () => {
  const name = "aNameOfThirtyFiveSignsThatNobodyHas";
  const longer = `${name}AndThenSomeMoreOfIt`;
  const told = (field: string): string => {
    try {
      checkShape({ [field]: "no" }, z.object({ [field]: z.number("a number is expected") }), "file");
    } catch (error) {
      return (error as Error).message;
    }
    return "";
  };
  expect(told(name)).toContain(name);
  expect(told(longer)).toContain(longer.slice(0, 40));
  expect(told(longer)).not.toContain(longer.slice(0, 41));
});
