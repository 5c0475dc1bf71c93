import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type Dimension,
  formatQuantity,
  InputError,
  inUnit,
  parseQuantity,
  roundedTo,
  roundToUncertainty,
  significant,
  unitFor,
} from "../../src/quantity/index.ts";

describe("roundToUncertainty", () => {
  it.each([
    [1.23456, 0.0996, "1.23", "0.10"],
    [1.23456, 0.0994, "1.235", "0.099"],
    [1.23456, 0.0123, "1.235", "0.012"],
    [99.96, 0.995, "100.0", "1.0"],
    [1234, 56, "1234", "56"],
    [1234, 560, "1230", "560"],
    [1235, 560, "1240", "560"],
    [-1234.5, 99.6, "-1230", "100"],
    [25, 10, "25", "10"],
    [5, 1234, "0", "1200"],
    [51, 1234, "100", "1200"],
    [0, 0.1, "0.00", "0.10"],
    [-0.004, 0.2, "0.00", "0.20"],
    [0.30000000000000004, 0.1, "0.30", "0.10"],
    [1.005, 0.1, "1.01", "0.10"],
    [2.675, 0.25, "2.68", "0.25"],
    [1.5e-9, 2e-11, "1.500e-9", "0.020e-9"],
    [1e20, 1e18, "1.000e20", "0.010e20"],
    [12.34567, 0, "12.34567", "0"],
    [12.34567, Number.POSITIVE_INFINITY, "12", "∞"],
    [1, 1e-30, "1", "1e-30"],
    [Number.POSITIVE_INFINITY, 1, "∞", "1"],
  ])("prints %d ± %d as %s ± %s", (value, u, shown, shownU) => {
    expect(roundToUncertainty(value, u)).toEqual({ value: shown, u: shownU });
  });

  it.each([
    [-7.2468, 0.31, -7.25],
    [-1234.5, 99.6, -1230],
    [1.5004e-9, 2e-11, 1.5e-9],
    [-0.004, 0.2, 0],
  ])("is kept as a number: %d ± %d as %d", (value, u, kept) => {
    expect(roundedTo(value, u)).toBe(kept);
  });

  // JCGM 100:2008, 7.2.6: y = 10.05762 ohm with u = 27 mΩ is given as 10.058 ohm (recalled).
  it("rounds the guide's own example as the guide does (JCGM 100:2008, 7.2.6)", () => {
    expect(roundToUncertainty(10.05762, 0.027)).toEqual({ value: "10.058", u: "0.027" });
  });

  it("refuses what is no figure, since that is a fault of the program", () => {
    expect(() => roundToUncertainty(Number.NaN, 1)).toThrow(RangeError);
    expect(() => roundToUncertainty(1, Number.NaN)).toThrow(RangeError);
    expect(() => roundToUncertainty(1, -1)).toThrow(RangeError);
  });

  const size = fc.tuple(fc.double({ min: 1, max: 9.999999, noNaN: true }), fc.integer({ min: -12, max: 12 }));
  const positive = size.map(([mantissa, power]) => mantissa * 10 ** power);

  it("keeps two digits of the uncertainty and the value to the same place", () => {
    fc.assert(
      fc.property(positive, positive, fc.boolean(), (magnitude, u, negative) => {
        const value = negative ? -magnitude : magnitude;
        const rounded = roundToUncertainty(value, u);
        if (u < magnitude * 1e-12) return;
        const digits = rounded.u.replace(/e.*/, "").replace(".", "").replace(/^0+/, "");
        expect(digits.replace(/0+$/, "").length).toBeLessThanOrEqual(2);
        const decimals = (text: string) => text.replace(/e.*/, "").split(".")[1]?.length ?? 0;
        expect(decimals(rounded.value)).toBe(decimals(rounded.u));
        // Two digits of u: its rounding is at most half a unit of the second digit, 0.5 / 10 of u; the same for the value.
        expect(Math.abs(Number(rounded.u) - u)).toBeLessThanOrEqual(0.05 * u * (1 + 1e-9));
        expect(Math.abs(Number(rounded.value) - value)).toBeLessThanOrEqual(0.0501 * u + Math.abs(value) * 1e-15);
      }),
      { seed: 21, numRuns: 5000 },
    );
  });
});

describe("significant", () => {
  it.each([
    [8, 4, "8"],
    [32.004, 4, "32.00"],
    [32.00000003, 4, "32"],
    [-9.996, 3, "-10.0"],
    [0.0095254, 3, "0.00953"],
    [123456.7, 4, "123500"],
    [999.96, 4, "1000"],
    [384243000, 4, "384200000"],
    [1.25e-9, 3, "1.25e-9"],
    [0, 4, "0"],
    [-0.00004, 1, "-0.00004"],
    [Number.NEGATIVE_INFINITY, 4, "-∞"],
  ])("prints %d to %d digits as %s", (value, digits, shown) => {
    expect(significant(value, digits)).toBe(shown);
  });
});

describe("formatQuantity", () => {
  it.each([
    [12.3456, "length", { u: 0.4 }, "12.35 ± 0.40 m"],
    [12.3456, "length", { u: 0.4, system: "us" }, "40.5 ± 1.3 ft"],
    [12.3456, "length", { unit: "in", digits: 6 }, "486.047 in"],
    [1025, "density", {}, "1025 kg/m³"],
    [1025, "density", { unit: "lb/ft3" }, "63.99 lb/ft³"],
    [0.0733038, "angle", { u: 0.00349066 }, "4.20° ± 0.20°"],
    [0.0733038, "angle", {}, "4.2°"],
    [0.0733038, "angle", { unit: "deg" }, "4.2°"],
    [0.12, "ratio", { unit: "%" }, "12 %"],
    [5, "ratio", {}, "5"],
    [10.288889, "speed", { system: "us" }, "20 kn"],
    [1779.2886, "force", { system: "us", u: 22 }, "400.0 ± 4.9 lbf"],
    [Number.POSITIVE_INFINITY, "stiffness", {}, "∞ N/m"],
  ] as const)("shows %d of %s with %j as %s", (value, dimension, format, shown) => {
    expect(formatQuantity(value, dimension, format)).toBe(shown);
  });

  it("refuses a unit that measures something else", () => {
    expect(() => unitFor("length", "metric", "kn")).toThrow(InputError);
    expect(() => formatQuantity(1, "force", { unit: "kg" })).toThrow(
      'units: "kg" is a mass; the force of 1 kg at rest is 1 kgf; a unit of force is expected, such as "N"',
    );
  });

  const dimensions: Dimension[] = [
    "length",
    "mass",
    "force",
    "massPerLength",
    "density",
    "speed",
    "angle",
    "ratio",
    "time",
    "area",
    "volume",
    "stiffness",
    "pressure",
    "energy",
    "power",
    "frequency",
    "forcePerArea",
    "acceleration",
  ];
  const anyDimension = fc.constantFrom(...dimensions);
  // Zero, or of a size met in practice: a double below 2.2e-308 holds fewer digits than the bounds below assume.
  const anyValue = fc.oneof(
    { weight: 1, arbitrary: fc.constant(0) },
    {
      weight: 50,
      arbitrary: fc
        .tuple(fc.constantFrom(-1, 1), fc.double({ min: 1, max: 9.99, noNaN: true }), fc.integer({ min: -4, max: 6 }))
        .map(([sign, mantissa, power]) => sign * mantissa * 10 ** power),
    },
  );
  const anySystem = fc.constantFrom("metric" as const, "us" as const);

  it("what it shows is read back as the same value, within the digits shown", () => {
    fc.assert(
      fc.property(
        anyValue,
        anyDimension,
        anySystem,
        fc.integer({ min: 1, max: 9 }),
        (value, dimension, system, digits) => {
          const back = parseQuantity(formatQuantity(value, dimension, { system, digits }), dimension, "test");
          // Half a unit of the last digit shown, at worst of the smallest leading digit; an angle to a hundredth of a degree
          // unless more than four digits are asked.
          const finest = dimension === "angle" && digits <= 4 ? (0.005 * Math.PI) / 180 : 0;
          const half = Math.max(Math.abs(value) * 0.5 * 10 ** (1 - digits), finest);
          expect(Math.abs(back - value)).toBeLessThanOrEqual(half * (1 + 1e-9));
        },
      ),
      { seed: 22, numRuns: 5000 },
    );
  });

  it("metric and US show the same quantity", () => {
    fc.assert(
      fc.property(anyValue, anyDimension, (value, dimension) => {
        const read = (system: "metric" | "us") =>
          parseQuantity(formatQuantity(value, dimension, { system, digits: 12 }), dimension, "test");
        expect(Math.abs(read("metric") - read("us"))).toBeLessThanOrEqual(Math.abs(value) * 1.1e-11);
        const us = unitFor(dimension, "us");
        expect(
          Math.abs(parseQuantity(`${inUnit(value, us, dimension)} ${us}`, dimension, "test") - value),
        ).toBeLessThanOrEqual(Math.abs(value) * 1e-15);
      }),
      { seed: 23, numRuns: 5000 },
    );
  });
});
