import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Dimension, InputError, nearestName, parseQuantity } from "../../src/quantity/index.ts";

const inch = 0.0254;
const foot = 0.3048;
const lbf = 4.4482216152605;
const degree = Math.PI / 180;

const READ: readonly [text: string | number, dimension: Dimension, si: number][] = [
  ["3/8 in", "length", 0.375 * inch],
  ["3 / 8 in", "length", 0.375 * inch],
  ["9 1/2 in", "length", 9.5 * inch],
  ["9-1/2 in", "length", 9.5 * inch],
  ["9½ in", "length", 9.5 * inch],
  ["9 ½ in", "length", 9.5 * inch],
  ['½"', "length", 0.5 * inch],
  ["⅜ in", "length", 0.375 * inch],
  ["3⁄8 in", "length", 0.375 * inch],
  ["105 ft", "length", 105 * foot],
  ["105ft", "length", 105 * foot],
  ["  105   ft ", "length", 105 * foot],
  [`105' 6"`, "length", 105.5 * foot],
  [`5'6"`, "length", 5.5 * foot],
  ["5′ 6½″", "length", 66.5 * inch],
  ["5’6”", "length", 5.5 * foot],
  ["5'6''", "length", 5.5 * foot],
  [`-5' 6"`, "length", -5.5 * foot],
  ["5 ft 6 in", "length", 5.5 * foot],
  ["5 feet 6 1/4 inches", "length", 66.25 * inch],
  ['0.375"', "length", 0.375 * inch],
  ["5 fathoms", "length", 30 * foot],
  ["5 Fathoms", "length", 30 * foot],
  ["2 metres", "length", 2],
  ["2 nmi", "length", 3704],
  [".5 m", "length", 0.5],
  ["5. m", "length", 5],
  ["−3 m", "length", -3],
  ["+3 m", "length", 3],
  ["12", "length", 12],
  [12, "length", 12],
  ["1/2", "length", 0.5],
  ["2.2 kg/m", "massPerLength", 2.2],
  ["2.2 kg per m", "massPerLength", 2.2],
  ["1.65 lb/ft", "massPerLength", (1.65 * 0.45359237) / foot],
  ["6.5 lb/100 ft", "massPerLength", (0.065 * 0.45359237) / foot],
  ["6.5 lb/100ft", "massPerLength", (0.065 * 0.45359237) / foot],
  ["122 ktex", "massPerLength", 0.122],
  ["15 kg", "mass", 15],
  ["33 lb", "mass", 33 * 0.45359237],
  ["33 lbs", "mass", 33 * 0.45359237],
  ["8 lb 4 oz", "mass", 8.25 * 0.45359237],
  ["500 g", "mass", 0.5],
  ["400 lbf", "force", 400 * lbf],
  ["400 lb", "force", 400 * lbf],
  ["400 pounds", "force", 400 * lbf],
  ["1,000 lbf", "force", 1000 * lbf],
  ["1,000.5 lbf", "force", 1000.5 * lbf],
  ["12,345,678 N", "force", 12_345_678],
  ["1.8 kN", "force", 1800],
  ["90 kN", "force", 90_000],
  ["25 daN", "force", 250],
  ["90 kgf", "force", 90 * 9.80665],
  ["1e3 N", "force", 1000],
  ["1E+3 N", "force", 1000],
  ["1.5e-3 MN", "force", 1500],
  ["2 kip", "force", 2000 * lbf],
  ["20 kn", "speed", (20 * 1852) / 3600],
  ["20 knots", "speed", (20 * 1852) / 3600],
  ["15 m/s", "speed", 15],
  ["36 km/h", "speed", 10],
  ["12 %", "ratio", 0.12],
  ["12%", "ratio", 0.12],
  ["5:1", "ratio", 5],
  ["7:2", "ratio", 3.5],
  ["0.7", "ratio", 0.7],
  ["5 deg", "angle", 5 * degree],
  ["5°", "angle", 5 * degree],
  ["5", "angle", 5 * degree],
  [5, "angle", 5 * degree],
  ["0.1 rad", "angle", 0.1],
  ["1025 kg/m3", "density", 1025],
  ["1025 kg/m³", "density", 1025],
  ["1025 kg/m^3", "density", 1025],
  ["64 lb/ft3", "density", (64 * 0.45359237) / foot ** 3],
  ["7.85 g/cm3", "density", 7850],
  ["12 lb/ft", "stiffness", (12 * lbf) / foot],
  ["3 kN/m", "stiffness", 3000],
  ["3 sq ft", "area", 3 * foot ** 2],
  ["2 cu ft", "volume", 2 * foot ** 3],
  ["10 ft-lb", "energy", 10 * lbf * foot],
  ["10 ft lbf", "energy", 10 * lbf * foot],
  ["5 N·m", "energy", 5],
  ["30 psi", "pressure", (30 * lbf) / inch ** 2],
  ["5 lbf/ft2", "forcePerArea", (5 * lbf) / foot ** 2],
  ["0.3 g", "acceleration", 0.3 * 9.80665],
  ["3 m/s/s", "acceleration", 3],
  ["6 1/min", "frequency", 0.1],
  ["2 h 30 min", "time", 9000],
  ["0.5 d", "time", 43_200],
];

const REFUSED: readonly [text: unknown, dimension: Dimension, line: string][] = [
  [
    "5 lb/0 ft",
    "massPerLength",
    'place: "5 lb/0 ft" has a unit that is not known here, "0"; a mass per length is expected, such as "5 kg/m"',
  ],
  ["12 kn", "length", 'place: "12 kn" is a speed; a length is expected, such as "12 m"'],
  ["1,5 m", "length", 'place: "1,5 m"; a decimal point is expected: 1.5 m; a length is expected, such as "12 m"'],
  ["0,500 m", "length", 'place: "0,500 m"; a decimal point is expected: 0.500 m; a length is expected, such as "12 m"'],
  [",5 m", "length", 'place: ",5 m"; a decimal point is expected: 0.5 m; a length is expected, such as "12 m"'],
  [
    "1.000,5 N",
    "force",
    'place: "1.000,5 N"; a decimal point is expected: 1000.5 N; a force is expected, such as "12 N"',
  ],
  [
    "12 kt",
    "speed",
    'place: "12 kt" has a unit of two meanings; are knots meant? Those are written "12 kn"; a speed is expected, such as "12 m/s"',
  ],
  [
    "20 kn",
    "force",
    'place: "20 kn" is a speed; case matters: kn is knots, kN is kilonewtons; a force is expected, such as "20 N"',
  ],
  [
    "20 kN",
    "speed",
    'place: "20 kN" is a force; case matters: kN is kilonewtons, kn is knots; a speed is expected, such as "20 m/s"',
  ],
  [
    "5 FT",
    "length",
    'place: "5 FT" has a unit that is not known here, "FT"; case matters: write ft; a length is expected, such as "5 m"',
  ],
  ["5 kg", "force", 'place: "5 kg" is a mass; the force of 1 kg at rest is 1 kgf; a force is expected, such as "5 N"'],
  ["5 kg·m", "force", 'place: "5 kg·m" is of another kind; a force is expected, such as "5 N"'],
  [
    "1 ton",
    "mass",
    'place: "1 ton" has a unit of two meanings; a ton may be 1000 kg (t), 2000 lb or 2240 lb; write it in t, kg or lb; a mass is expected, such as "1 kg"',
  ],
  [
    "12 furlongs",
    "length",
    'place: "12 furlongs" has a unit that is not known here, "furlongs"; a length is expected, such as "12 m"',
  ],
  [
    "1 000 N",
    "force",
    'place: "1 000 N"; digits are not parted by spaces: write 1000; a force is expected, such as "12 N"',
  ],
  [
    "12,34,567 N",
    "force",
    'place: "12,34,567 N"; a comma may only part groups of three digits, as in 1,000; a force is expected, such as "12 N"',
  ],
  ["1/0 in", "length", 'place: "1/0 in"; the fraction 1/0 has no value; a length is expected, such as "12 m"'],
  ["1.2.3 m", "length", 'place: "1.2.3 m"; a number has one decimal point; a length is expected, such as "12 m"'],
  [
    `5'18"`,
    "length",
    `place: ${JSON.stringify(`5'18"`)}; a whole number of the first unit, and less than one of it in the second, is expected`,
  ],
  ["5'6", "length", `place: "5'6" has a unit that is not known here, "'6"; a length is expected, such as "5 m"`],
  ["5 m 6", "length", 'place: "5 m 6" has a unit that is not known here, "m 6"; a length is expected, such as "5 m"'],
  ["5 m/", "length", 'place: "5 m/" has a unit that is not known here, "m/"; a length is expected, such as "5 m"'],
  ["", "length", 'place: ""; a length is expected, such as "12 m"'],
  ["ft", "length", 'place: "ft"; it does not begin with a number; a length is expected, such as "12 m"'],
  ["about 5 m", "length", 'place: "about 5 m"; it does not begin with a number; a length is expected, such as "12 m"'],
  [
    "Infinity m",
    "length",
    'place: "Infinity m"; it does not begin with a number; a length is expected, such as "12 m"',
  ],
  ["1e999 m", "length", 'place: "1e999 m"; the number is too large; a length is expected, such as "12 m"'],
  ["1e308 km", "length", 'place: "1e308 km"; a finite value is expected: a length is expected, such as "12 m"'],
  [Number.NaN, "length", 'place: NaN; a finite value is expected: a length is expected, such as "12 m"'],
  [
    Number.POSITIVE_INFINITY,
    "angle",
    'place: Infinity; a finite value is expected: an angle is expected, such as "12 deg"',
  ],
  [{}, "length", 'place: a group of fields; a length is expected, such as "12 m"'],
  [null, "mass", 'place: nothing given; a mass is expected, such as "12 kg"'],
  ["5:0", "ratio", 'place: "5:0"; a ratio is expected, such as "5:1"'],
  ["5:1", "length", 'place: "5:1" has a unit that is not known here, ":1"; a length is expected, such as "5 m"'],
  ["5 lb", "length", 'place: "5 lb" is a mass; a length is expected, such as "5 m"'],
  ["5 %", "length", 'place: "5 %" is a ratio; a length is expected, such as "5 m"'],
  ["5 m", "angle", 'place: "5 m" is a length; an angle is expected, such as "5 deg"'],
  ["5 m", "ratio", 'place: "5 m" is a length; a ratio is expected, such as "12 %" or 0.12'],
];

describe("a length in two units", () => {
  it("says why a number in it cannot be read", () => {
    expect(() => parseQuantity("5 ft 1,5 in", "length", "place")).toThrow(
      'place: "5 ft 1,5 in"; a decimal point is expected: 1.5; a length is expected, such as "12 m"',
    );
  });
});

describe("parseQuantity", () => {
  it.each(READ)("reads %j as %s", (text, dimension, si) => {
    // The expected values are themselves computed in doubles: four units in the last place.
    expect(Math.abs(parseQuantity(text, dimension, "place") - si)).toBeLessThanOrEqual(Math.abs(si) * 9e-16);
  });

  it.each(REFUSED)("refuses %j as %s in one line that says why", (text, dimension, line) => {
    const read = () => parseQuantity(text as string, dimension, "place");
    expect(read).toThrow(InputError);
    expect(messageOf(read)).toBe(line);
  });

  it.each([["-0 m"], [`-0' 0"`], ["0"], [-0]])("reads %j as a zero without a sign", (text) => {
    expect(Object.is(parseQuantity(text, "length", "place"), 0)).toBe(true);
  });

  it("names the place, what was given and what was expected", () => {
    try {
      parseQuantity("12 kn", "length", "rode #3.length");
      expect.unreachable();
    } catch (error) {
      expect(error).toMatchObject({ place: "rode #3.length", given: '"12 kn" is a speed' });
    }
  });

  it("reads every plain decimal with a unit as that many units", () => {
    fc.assert(
      fc.property(fc.double({ min: -1e9, max: 1e9, noNaN: true }), (value) => {
        const read = parseQuantity(`${value} m`, "length", "place");
        expect(read).toBe(value === 0 ? 0 : value);
      }),
      { seed: 11 },
    );
  });

  it("reads a mixed fraction as its decimal", () => {
    const whole = fc.integer({ min: 0, max: 9999 });
    const bottom = fc.constantFrom(2, 4, 8, 16, 32, 64);
    fc.assert(
      fc.property(whole, bottom, fc.integer({ min: 1, max: 63 }), (n, d, top) => {
        const mixed = parseQuantity(`${n} ${top}/${d} in`, "length", "place");
        expect(mixed).toBe(parseQuantity(`${n + top / d} in`, "length", "place"));
      }),
      { seed: 12 },
    );
  });

  it("reads commas between groups of three as if they were not there", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 999_999_999 }), (n) => {
        const grouped = n.toLocaleString("en-US");
        expect(parseQuantity(`${grouped} N`, "force", "place")).toBe(n);
      }),
      { seed: 13 },
    );
  });

  it("answers any text with a finite number or an InputError of one line", () => {
    const pieces = fc.array(
      fc.oneof(
        fc.constantFrom(
          ..."0123456789 .,/'\"-+eE%°½:·^²".split(""),
          "ft",
          "in",
          "lb",
          "kN",
          "kn",
          "m",
          "m3",
          "sq ",
          "per ",
          "100 ",
        ),
        fc.string({ maxLength: 3, unit: "binary" }),
      ),
      { maxLength: 12 },
    );
    const dimensions = fc.constantFrom<Dimension>("length", "force", "massPerLength", "ratio", "angle", "energy");
    let refused = 0;
    fc.assert(
      fc.property(pieces, dimensions, (parts, dimension) => {
        try {
          expect(Number.isFinite(parseQuantity(parts.join(""), dimension, "place"))).toBe(true);
        } catch (error) {
          refused++;
          expect(error).toBeInstanceOf(InputError);
          expect((error as Error).message).not.toMatch(/[\r\n]/);
        }
      }),
      { seed: 14, numRuns: 20_000 },
    );
    expect(refused).toBeGreaterThan(1000);
  });
});

describe("nearestName", () => {
  it.each([
    ["lenght", "length"],
    ["Depth", "depth"],
    ["rollerheight", "rollerHeight"],
    ["masPerLenght", "massPerLength"],
  ])("takes %s for %s", (typed, meant) => {
    expect(nearestName(typed, ["length", "depth", "rollerHeight", "massPerLength", "density"])).toBe(meant);
  });

  it("takes a word unlike all others for none of them", () => {
    expect(nearestName("colour", ["length", "depth", "density"])).toBeUndefined();
  });
});

function messageOf(action: () => unknown): string {
  try {
    action();
  } catch (error) {
    return (error as Error).message;
  }
  return "";
}
