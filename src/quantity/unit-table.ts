/**
 * The units this program reads, each with its exact factor to SI as a fraction of two numbers: 14 mm is then
 * 14 · 1 / 1000, correctly rounded, where 14 · 0.001 need not be. Every constant stands once; inverses are computed.
 *
 * Exact by definition: the inch, foot, fathom and pound of the international agreement of 1959, the nautical mile
 * of 1929 and the hour (hence the knot), standard gravity of 1901 (hence kilogram-force, pound-force and the
 * mechanical horsepower of 550 ft·lbf/s).
 */
import { NAUTICAL_MILE } from "./constants.ts";
import type { Powers } from "./dimension.ts";

export interface Reading {
  readonly powers: Powers;
  /** SI value = value · top / bottom. */
  readonly top: number;
  readonly bottom: number;
}

const LENGTH: Powers = [1, 0, 0, 0];
const MASS: Powers = [0, 1, 0, 0];
const TIME: Powers = [0, 0, 1, 0];
const ANGLE: Powers = [0, 0, 0, 1];
const FORCE: Powers = [1, 1, -2, 0];
const SPEED: Powers = [1, 0, -1, 0];
const VOLUME: Powers = [3, 0, 0, 0];
const PRESSURE: Powers = [-1, 1, -2, 0];
const ENERGY: Powers = [2, 1, -2, 0];
const POWER: Powers = [2, 1, -3, 0];
const PER_TIME: Powers = [0, 0, -1, 0];
const RATIO: Powers = [0, 0, 0, 0];
const MASS_PER_LENGTH: Powers = [-1, 1, 0, 0];
const ACCELERATION: Powers = [1, 0, -2, 0];

const read = (powers: Powers, top: number, bottom = 1): Reading => ({ powers, top, bottom });

const inch = read(LENGTH, 254, 10_000);
const foot = read(LENGTH, 3048, 10_000);
const yard = read(LENGTH, 9144, 10_000);
const fathom = read(LENGTH, 6 * 3048, 10_000);
const nauticalMile = read(LENGTH, NAUTICAL_MILE);
const pound = read(MASS, 45_359_237, 100_000_000);
const ounce = read(MASS, 45_359_237, 1_600_000_000);
// 0.45359237 · 9.80665 has exactly thirteen decimals: 4.4482216152605 N.
const poundForce = read(FORCE, 44_482_216_152_605, 10_000_000_000_000);
const ounceForce = read(FORCE, 44_482_216_152_605, 160_000_000_000_000);
const knot = read(SPEED, NAUTICAL_MILE, 3600);
const gravity = read(ACCELERATION, 980_665, 100_000);
const degree = read(ANGLE, Math.PI, 180);

/** Symbols, in which case matters: `kn` is knots and `kN` kilonewtons. A symbol may have two readings. */
export const SYMBOLS: ReadonlyMap<string, readonly Reading[]> = new Map<string, readonly Reading[]>([
  ["m", [read(LENGTH, 1)]],
  ["mm", [read(LENGTH, 1, 1000)]],
  ["cm", [read(LENGTH, 1, 100)]],
  ["km", [read(LENGTH, 1000)]],
  ["in", [inch]],
  ['"', [inch]],
  ["ft", [foot]],
  ["'", [foot]],
  ["yd", [yard]],
  ["fathom", [fathom]],
  ["nmi", [nauticalMile]],
  ["NM", [nauticalMile]],
  ["kg", [read(MASS, 1)]],
  // A gram where a mass is asked for, standard gravity where an acceleration is.
  ["g", [read(MASS, 1, 1000), gravity]],
  ["t", [read(MASS, 1000)]],
  // A pound is a mass in a mass field and a force in a force field; so is an ounce.
  ["lb", [pound, poundForce]],
  ["lbs", [pound, poundForce]],
  ["oz", [ounce, ounceForce]],
  ["lbm", [pound]],
  ["N", [read(FORCE, 1)]],
  ["daN", [read(FORCE, 10)]],
  ["kN", [read(FORCE, 1000)]],
  ["MN", [read(FORCE, 1_000_000)]],
  ["kgf", [read(FORCE, 980_665, 100_000)]],
  ["tf", [read(FORCE, 980_665, 100)]],
  ["lbf", [poundForce]],
  ["kip", [read(FORCE, 44_482_216_152_605, 10_000_000_000)]],
  ["tex", [read(MASS_PER_LENGTH, 1, 1_000_000)]],
  ["ktex", [read(MASS_PER_LENGTH, 1, 1000)]],
  ["kn", [knot]],
  ["mph", [read(SPEED, 1_609_344, 3_600_000)]],
  ["rad", [read(ANGLE, 1)]],
  ["mrad", [read(ANGLE, 1, 1000)]],
  ["deg", [degree]],
  ["°", [degree]],
  ["%", [read(RATIO, 1, 100)]],
  ["s", [read(TIME, 1)]],
  ["ms", [read(TIME, 1, 1000)]],
  ["min", [read(TIME, 60)]],
  ["h", [read(TIME, 3600)]],
  ["hr", [read(TIME, 3600)]],
  ["d", [read(TIME, 86_400)]],
  ["l", [read(VOLUME, 1, 1000)]],
  ["L", [read(VOLUME, 1, 1000)]],
  ["Pa", [read(PRESSURE, 1)]],
  ["hPa", [read(PRESSURE, 100)]],
  ["kPa", [read(PRESSURE, 1000)]],
  ["MPa", [read(PRESSURE, 1_000_000)]],
  ["GPa", [read(PRESSURE, 1_000_000_000)]],
  ["mbar", [read(PRESSURE, 100)]],
  ["bar", [read(PRESSURE, 100_000)]],
  // 1 lbf on a square inch: 0.0254² = 0.00064516 m².
  ["psi", [read(PRESSURE, 44_482_216_152_605, 6_451_600_000)]],
  // 1 lbf on a square foot: 0.3048² = 0.09290304 m².
  ["psf", [read(PRESSURE, 44_482_216_152_605, 929_030_400_000)]],
  ["J", [read(ENERGY, 1)]],
  ["kJ", [read(ENERGY, 1000)]],
  ["MJ", [read(ENERGY, 1_000_000)]],
  ["Wh", [read(ENERGY, 3600)]],
  ["kWh", [read(ENERGY, 3_600_000)]],
  ["W", [read(POWER, 1)]],
  ["kW", [read(POWER, 1000)]],
  ["MW", [read(POWER, 1_000_000)]],
  // 550 ft·lbf/s
  ["hp", [read(POWER, 550 * 3048 * 4.4482216152605, 10_000)]],
  ["Hz", [read(PER_TIME, 1)]],
  ["mHz", [read(PER_TIME, 1, 1000)]],
  ["kHz", [read(PER_TIME, 1000)]],
  ["rpm", [read(PER_TIME, 1, 60)]],
]);

/** Words, in which case does not matter, and the symbol each stands for. */
export const WORDS: ReadonlyMap<string, string> = new Map([
  ...spelled("m", "metre", "metres", "meter", "meters"),
  ...spelled("in", "inch", "inches"),
  ...spelled("ft", "foot", "feet"),
  ...spelled("yd", "yard", "yards"),
  ...spelled("fathom", "fathom", "fathoms"),
  ...spelled("kg", "kilogram", "kilograms", "kilogramme", "kilogrammes"),
  ...spelled("g", "gram", "grams"),
  ...spelled("t", "tonne", "tonnes"),
  ...spelled("lb", "pound", "pounds"),
  ...spelled("oz", "ounce", "ounces"),
  ...spelled("N", "newton", "newtons"),
  ...spelled("kN", "kilonewton", "kilonewtons"),
  ...spelled("kn", "knot", "knots"),
  ...spelled("deg", "degree", "degrees"),
  ...spelled("rad", "radian", "radians"),
  ...spelled("s", "second", "seconds", "sec"),
  ...spelled("min", "minute", "minutes"),
  ...spelled("h", "hour", "hours"),
  ...spelled("d", "day", "days"),
  ...spelled("l", "litre", "litres", "liter", "liters"),
  ...spelled("%", "percent"),
]);

/** Units with more than one meaning: refused, with the question that settles it (# stands for the number). */
export const QUESTIONS: ReadonlyMap<string, string> = new Map([
  ["kt", 'are knots meant? Those are written "# kn"'],
  ["kts", 'are knots meant? Those are written "# kn"'],
  ["ton", "a ton may be 1000 kg (t), 2000 lb or 2240 lb; write it in t, kg or lb"],
  ["tons", "a ton may be 1000 kg (t), 2000 lb or 2240 lb; write it in t, kg or lb"],
  ["mi", "a nautical mile is written nmi; which mile is meant?"],
  ["mile", "a nautical mile is written nmi; which mile is meant?"],
  ["miles", "a nautical mile is written nmi; which mile is meant?"],
  ["gal", "gallons differ between countries; write it in L or ft³"],
  ["shot", "a shot of chain may be 27.4 m or 27.5 m; write it in m or ft"],
  ["shots", "a shot of chain may be 27.4 m or 27.5 m; write it in m or ft"],
]);

/** What a bare symbol stands for, where its case can be mistaken. */
export const MEANINGS: ReadonlyMap<string, string> = new Map([
  ["kn", "knots"],
  ["kN", "kilonewtons"],
  ["MN", "meganewtons"],
  ["NM", "nautical miles"],
  ["m", "metres"],
  ["g", "grams"],
  ["N", "newtons"],
  ["t", "tonnes"],
]);

/** The readings of one unit name, or none when it is not known. */
export function readingsOf(name: string): readonly Reading[] | undefined {
  const symbol = SYMBOLS.get(name);
  if (symbol) return symbol;
  const word = WORDS.get(name.toLowerCase());
  return word === undefined ? undefined : SYMBOLS.get(word);
}

function spelled(symbol: string, ...words: string[]): [string, string][] {
  return words.map((word) => [word, symbol]);
}
