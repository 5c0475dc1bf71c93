import Qty from "js-quantities";
import { describe, expect, it } from "vitest";
import { type Dimension, fromUnit, inUnit, parseQuantity, unitChoices, unitFor } from "../../src/quantity/index.ts";

/**
 * Factors against the library js-quantities 1.8.0 (MIT). It keeps some factors to six digits (1 psi = 6894.76 Pa,
 * 1 lbf = 4.448222 N), so agreement is asked to 5e-7, half a unit of its last digit; its fathom is kept to the
 * millimetre (1.829 m), so there 0.0005 / 1.829 is asked.
 */
const CROSS_CHECKED: readonly [
  ours: string,
  dimension: Dimension,
  theirs: string,
  theirSI: string,
  tolerance?: number,
][] = [
  ["in", "length", "1 inch", "m"],
  ["ft", "length", "1 foot", "m"],
  ["yd", "length", "1 yard", "m"],
  ["fathom", "length", "1 fathom", "m", 0.0005 / 1.829],
  ["nmi", "length", "1 naut-mile", "m"],
  ["km", "length", "1 km", "m"],
  ["lb", "mass", "1 lb", "kg"],
  ["oz", "mass", "1 oz", "kg"],
  ["t", "mass", "1 tonne", "kg"],
  ["lbf", "force", "1 lbf", "N"],
  ["kN", "force", "1 kN", "N"],
  ["daN", "force", "1 daN", "N"],
  ["kn", "speed", "1 knot", "m/s"],
  ["mph", "speed", "1 mph", "m/s"],
  ["km/h", "speed", "1 km/h", "m/s"],
  ["ft/s", "speed", "1 ft/s", "m/s"],
  ["deg", "angle", "1 deg", "rad"],
  ["%", "ratio", "1 %", ""],
  ["lb/ft", "massPerLength", "1 lb/ft", "kg/m"],
  ["lb/ft³", "density", "1 lb/ft3", "kg/m3"],
  ["g/cm³", "density", "1 g/cm3", "kg/m3"],
  ["lbf/ft", "stiffness", "1 lbf/ft", "N/m"],
  ["lb/in", "stiffness", "1 lbf/in", "N/m"],
  ["psi", "pressure", "1 psi", "Pa"],
  ["bar", "pressure", "1 bar", "Pa"],
  ["lbf/ft²", "forcePerArea", "1 lbf/ft2", "Pa"],
  ["ft·lbf", "energy", "1 ft*lbf", "J"],
  ["kWh", "energy", "1 kWh", "J"],
  ["hp", "power", "1 hp", "W"],
  ["ft²", "area", "1 ft2", "m2"],
  ["in²", "area", "1 in2", "m2"],
  ["ft³", "volume", "1 ft3", "m3"],
  ["L", "volume", "1 l", "m3"],
  ["h", "time", "1 h", "s"],
  ["min", "time", "1 min", "s"],
  ["d", "time", "1 day", "s"],
  ["g", "acceleration", "1 gee", "m/s2"],
  ["ft/s²", "acceleration", "1 ft/s2", "m/s2"],
];

describe("unit factors", () => {
  it.each(CROSS_CHECKED)("%s of %s agrees with js-quantities' %s", (ours, dimension, theirs, theirSI, tolerance) => {
    const reference = Qty(theirs).to(theirSI).scalar;
    const factor = fromUnit(1, ours, dimension, "test");
    expect(Math.abs(factor / reference - 1)).toBeLessThanOrEqual(tolerance ?? 5e-7);
  });

  // Definitions: international yard and pound (1959), nautical mile (1929), standard gravity (CGPM 1901); recalled.
  it.each([
    ["1 lbf", "force", 4.4482216152605],
    ["1 in", "length", 0.0254],
    ["1 ft", "length", 0.3048],
    ["1 fathom", "length", 1.8288],
    ["1 nmi", "length", 1852],
    ["1 kgf", "force", 9.80665],
    ["1 lb", "mass", 0.45359237],
    ["3600 kn", "speed", 1852],
    ["14 mm", "length", 0.014],
    ["3/8 in", "length", 0.009525],
    ["180 deg", "angle", Math.PI],
  ] as const)("%s of %s is exactly %d", (text, dimension, exact) => {
    expect(parseQuantity(text, dimension, "test")).toBe(exact);
  });

  it("a pound-force is a pound under standard gravity", () => {
    const pound = parseQuantity("1 lb", "mass", "test");
    const gravity = parseQuantity("1 g", "acceleration", "test");
    // One rounding of the product: 2 units in the last place.
    expect(Math.abs(parseQuantity("1 lbf", "force", "test") / (pound * gravity) - 1)).toBeLessThan(4.5e-16);
  });

  it("a horsepower is 550 foot-pounds a second", () => {
    expect(parseQuantity("1 hp", "power", "test") / parseQuantity("550 ft·lbf/s", "power", "test")).toBeCloseTo(1, 14);
  });

  it("every unit offered is read, and the inverse of a factor undoes it", () => {
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
    for (const dimension of dimensions) {
      const offered = new Set([...unitChoices(dimension), unitFor(dimension, "metric"), unitFor(dimension, "us")]);
      for (const unit of offered) {
        const there = fromUnit(7.25, unit, dimension, "test");
        // Two multiplications and two divisions: at most 4 roundings of 1.1e-16 each.
        expect(Math.abs(inUnit(there, unit, dimension) / 7.25 - 1), `${unit} of ${dimension}`).toBeLessThan(4.5e-16);
      }
    }
  });
});

it("a value near the largest number comes through in either direction (an inch is 0.0254 m, NIST SP 811)", () => {
  expect(inUnit(1e305, "in", "length") / 1e305).toBeCloseTo(1 / 0.0254, 10);
  expect(fromUnit(1e307, "in", "length", "a length") / 1e307).toBeCloseTo(0.0254, 15);
});
