/**
 * Every unit against its definition, worked from the international yard and pound (1959: 0.9144 m, 0.45359237 kg),
 * standard gravity (CGPM 1901: 9.80665 m/s²), the nautical mile (1929: 1852 m), tex (ISO 1144: 1 g/km) and the prefixes
 * of the SI; all recalled, all exact.
 */
import { describe, expect, it } from "vitest";
import { type Dimension, inUnit, parseQuantity } from "../../src/quantity/index.ts";

const foot = 0.9144 / 3;
const inch = foot / 12;
const pound = 0.45359237;
const g = 9.80665;
const lbf = pound * g;

const DEFINED: readonly [text: string, dimension: Dimension, si: number][] = [
  ["1 mm", "length", 1e-3],
  ["1 cm", "length", 1e-2],
  ["1 km", "length", 1e3],
  ["1 in", "length", inch],
  ['1"', "length", inch],
  ["1 ft", "length", foot],
  ["1'", "length", foot],
  ["1 yd", "length", 0.9144],
  ["1 fathom", "length", 6 * foot],
  ["2 fathoms", "length", 12 * foot],
  ["1 nmi", "length", 1852],
  ["1 NM", "length", 1852],
  ["1 g", "mass", 1e-3],
  ["1 t", "mass", 1e3],
  ["1 lb", "mass", pound],
  ["1 lbs", "mass", pound],
  ["1 lbm", "mass", pound],
  ["1 oz", "mass", pound / 16],
  ["1 daN", "force", 10],
  ["1 kN", "force", 1e3],
  ["1 MN", "force", 1e6],
  ["1 kgf", "force", g],
  ["1 tf", "force", 1e3 * g],
  ["1 lbf", "force", lbf],
  ["1 lb", "force", lbf],
  ["1 lbs", "force", lbf],
  ["1 oz", "force", lbf / 16],
  ["1 kip", "force", 1e3 * lbf],
  ["1 tex", "massPerLength", 1e-6],
  ["1 ktex", "massPerLength", 1e-3],
  ["1 g/m", "massPerLength", 1e-3],
  ["1 lb/ft", "massPerLength", pound / foot],
  ["1 lb/100 ft", "massPerLength", pound / (100 * foot)],
  ["1 kg/100 m", "massPerLength", 0.01],
  ["1 g/cm3", "density", 1e3],
  ["1 lb/ft3", "density", pound / foot ** 3],
  ["1 kn", "speed", 1852 / 3600],
  ["1 mph", "speed", (1760 * 0.9144) / 3600],
  ["1 km/h", "speed", 1 / 3.6],
  ["1 ft/s", "speed", foot],
  ["1 deg", "angle", Math.PI / 180],
  ["1°", "angle", Math.PI / 180],
  ["1 mrad", "angle", 1e-3],
  ["1 rad", "angle", 1],
  ["1 %", "ratio", 0.01],
  ["1 ms", "time", 1e-3],
  ["1 min", "time", 60],
  ["1 h", "time", 3600],
  ["1 hr", "time", 3600],
  ["1 d", "time", 86400],
  ["1 cm2", "area", 1e-4],
  ["1 mm2", "area", 1e-6],
  ["1 ft2", "area", foot ** 2],
  ["1 in2", "area", inch ** 2],
  ["1 L", "volume", 1e-3],
  ["1 l", "volume", 1e-3],
  ["1 ft3", "volume", foot ** 3],
  ["1 in3", "volume", inch ** 3],
  ["1 kN/m", "stiffness", 1e3],
  ["1 daN/m", "stiffness", 10],
  ["1 lbf/ft", "stiffness", lbf / foot],
  ["1 lbf/in", "stiffness", lbf / inch],
  ["1 Pa", "pressure", 1],
  ["1 hPa", "pressure", 100],
  ["1 kPa", "pressure", 1e3],
  ["1 MPa", "pressure", 1e6],
  ["1 GPa", "pressure", 1e9],
  ["1 mbar", "pressure", 100],
  ["1 bar", "pressure", 1e5],
  ["1 psi", "pressure", lbf / inch ** 2],
  ["1 psf", "pressure", lbf / foot ** 2],
  ["1 lbf/ft2", "forcePerArea", lbf / foot ** 2],
  ["1 psf", "forcePerArea", lbf / foot ** 2],
  ["1 kJ", "energy", 1e3],
  ["1 MJ", "energy", 1e6],
  ["1 ft·lbf", "energy", foot * lbf],
  ["1 Wh", "energy", 3600],
  ["1 kWh", "energy", 3.6e6],
  ["1 kW", "power", 1e3],
  ["1 MW", "power", 1e6],
  ["1 hp", "power", 550 * foot * lbf],
  ["1 mHz", "frequency", 1e-3],
  ["1 kHz", "frequency", 1e3],
  ["60 rpm", "frequency", 1],
  ["1 g", "acceleration", g],
  ["1 ft/s2", "acceleration", foot],
];

describe("every unit is what it is defined as", () => {
  it.each(DEFINED)("%s of %s is %d in SI", (text, dimension, si) => {
    // A few roundings of products and quotients, 1.1e-16 each.
    expect(Math.abs(parseQuantity(text, dimension, "test") / si - 1)).toBeLessThan(1e-15);
  });

  it.each(DEFINED)("%s of %s is told back as the number it was written with", (text, dimension, si) => {
    const [, number, unit] = /^(\d+) ?(.*)$/.exec(text)!;
    expect(inUnit(si, unit!, dimension) / Number(number)).toBeCloseTo(1, 14);
  });

  it("thousands and thousandths of one unit are thousands of each other", () => {
    const ratio = (big: string, small: string, dimension: Dimension): number =>
      parseQuantity(big, dimension, "test") / parseQuantity(small, dimension, "test");
    expect(ratio("1 ktex", "1 tex", "massPerLength")).toBeCloseTo(1e3, 9);
    expect(ratio("1 psi", "1 psf", "pressure")).toBeCloseTo(144, 11);
    expect(ratio("1 kip", "1 lbf", "force")).toBeCloseTo(1e3, 9);
  });
});
