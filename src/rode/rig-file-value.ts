/** Quantities of a rig file within the bounds that have a meaning, in SI. */
import { type Dimension, InputError, parseQuantity, quoted } from "../quantity/index.ts";

type Text = string | number;

/** Bounds in SI, and how they read; `above` is not reached itself. */
interface Bounds {
  readonly least?: number;
  readonly above?: number;
  readonly most: number;
  readonly expected: string;
}

const bounds = {
  // Longer than any rode or depth: keeps the numbers of the mechanics far from overflow.
  length: { above: 0, most: 100_000, expected: "a length above zero, at most 100 km, is expected" },
  rise: { least: -10_000, most: 100_000, expected: "a rise from -10 km to 100 km is expected" },
  height: { least: 0, most: 10_000, expected: "a height of zero or more, at most 10 km, is expected" },
  massPerLength: { above: 0, most: 10_000, expected: "a mass per length above zero, at most 10000 kg/m, is expected" },
  mass: { above: 0, most: 10_000_000, expected: "a mass above zero, at most 10000 t, is expected" },
  // The lightest rope floats at about 900 kg/m³, the heaviest metal is at 22600: outside, a unit was mistaken.
  lineDensity: {
    least: 100,
    most: 23_000,
    expected: 'a density from 100 to 23000 kg/m³ is expected, such as "7850 kg/m3"',
  },
  pointDensity: {
    least: 1,
    most: 23_000,
    expected: 'a density from 1 to 23000 kg/m³ is expected, such as "7850 kg/m3"',
  },
  waterDensity: {
    least: 900,
    most: 1400,
    expected: 'a density from 900 to 1400 kg/m³ is expected, such as "1025 kg/m3"',
  },
  // Three tonnes a metre of steel bar has an EA of 1e11 N.
  stiffness: { above: 0, most: 1e12, expected: 'a force above zero is expected, such as "90 kN"' },
  load: { above: 0, most: 1e12, expected: 'a force above zero is expected, such as "1500 N"' },
  strain: { above: 0, most: 10, expected: "a strain above zero, at most 10, is expected" },
  slope: { least: -Math.PI / 4, most: Math.PI / 4, expected: "a slope from -45 to 45 deg is expected" },
  friction: { least: 0, most: 3, expected: "a friction from 0 to 3 is expected" },
  current: { least: -10, most: 10, expected: "a current from -10 to 10 m/s is expected" },
  diameter: { above: 0, most: 5, expected: "a diameter above zero, at most 5 m, is expected" },
  drag: { least: 0, most: 10, expected: "a drag coefficient from 0 to 10 is expected" },
  frictionU: { least: 0, most: 1, expected: "a standard uncertainty from 0 to 1 is expected" },
  slopeU: { least: 0, most: Math.PI / 18, expected: "a standard uncertainty from 0 to 10 deg is expected" },
  densityU: { least: 0, most: 100, expected: "a standard uncertainty from 0 to 100 kg/m³ is expected" },
  currentU: { least: 0, most: 5, expected: "a standard uncertainty from 0 to 5 m/s is expected" },
  relative: { least: 0, most: 0.5, expected: "a standard uncertainty from 0 to 50 % is expected" },
} satisfies Record<string, Bounds>;

/** What a field measures here, and its dimension. */
const dimensions: Readonly<Record<keyof typeof bounds, Dimension>> = {
  length: "length",
  rise: "length",
  height: "length",
  massPerLength: "massPerLength",
  mass: "mass",
  lineDensity: "density",
  pointDensity: "density",
  waterDensity: "density",
  stiffness: "force",
  load: "force",
  strain: "ratio",
  slope: "angle",
  friction: "ratio",
  current: "speed",
  diameter: "length",
  drag: "ratio",
  frictionU: "ratio",
  slopeU: "angle",
  densityU: "density",
  currentU: "speed",
  relative: "ratio",
};

/**
 * Reads a field of a rig file.
 * @throws InputError when it is of the wrong dimension or outside its bounds.
 */
export function readValue(given: Text, kind: keyof typeof bounds, place: string): number {
  const value = parseQuantity(given, dimensions[kind], place);
  const { least, above, most, expected }: Bounds = bounds[kind];
  // 45 deg as typed is π/4 to a rounding or two.
  const slack = 1 + 4 * Number.EPSILON;
  const low = least === undefined ? value > above! : value >= least * (least < 0 ? slack : 1);
  if (!low || value > most * slack) throw new InputError(place, quoted(given), expected);
  return value;
}
