/**
 * What a quantity can measure. Powers are of length, mass, time and plane angle; two dimensions may share powers
 * (a pressure and a force per area) and still be shown in different units.
 */
export type Dimension =
  | "length"
  | "mass"
  | "force"
  | "massPerLength"
  | "density"
  | "speed"
  | "angle"
  | "ratio"
  | "time"
  | "area"
  | "volume"
  | "stiffness"
  | "pressure"
  | "energy"
  | "power"
  | "frequency"
  | "forcePerArea"
  | "acceleration";

/** Powers of length, mass, time and angle. */
export type Powers = readonly [length: number, mass: number, time: number, angle: number];

interface DimensionFacts {
  /** As it stands in a sentence: "a length". */
  readonly name: string;
  readonly powers: Powers;
  /** The units it is shown in when nobody chose another; "" for a bare ratio. */
  readonly metric: string;
  readonly us: string;
  /** Units worth offering in a list, the SI unit first. */
  readonly choices: readonly string[];
}

/** In the order in which a unit's powers are named: the first match gives the word for them. */
export const DIMENSIONS: Readonly<Record<Dimension, DimensionFacts>> = {
  length: {
    name: "a length",
    powers: [1, 0, 0, 0],
    metric: "m",
    us: "ft",
    choices: ["m", "cm", "mm", "km", "ft", "in", "fathom", "yd", "nmi"],
  },
  mass: { name: "a mass", powers: [0, 1, 0, 0], metric: "kg", us: "lb", choices: ["kg", "g", "t", "lb", "oz"] },
  force: {
    name: "a force",
    powers: [1, 1, -2, 0],
    metric: "N",
    us: "lbf",
    choices: ["N", "daN", "kN", "kgf", "tf", "lbf", "kip"],
  },
  massPerLength: {
    name: "a mass per length",
    powers: [-1, 1, 0, 0],
    metric: "kg/m",
    us: "lb/ft",
    choices: ["kg/m", "g/m", "lb/ft", "lb/100 ft", "ktex"],
  },
  density: {
    name: "a density",
    powers: [-3, 1, 0, 0],
    metric: "kg/m³",
    us: "lb/ft³",
    choices: ["kg/m³", "g/cm³", "lb/ft³"],
  },
  speed: {
    name: "a speed",
    powers: [1, 0, -1, 0],
    metric: "m/s",
    us: "kn",
    choices: ["m/s", "kn", "km/h", "mph", "ft/s"],
  },
  angle: { name: "an angle", powers: [0, 0, 0, 1], metric: "°", us: "°", choices: ["rad", "°", "mrad"] },
  ratio: { name: "a ratio", powers: [0, 0, 0, 0], metric: "", us: "", choices: ["", "%"] },
  time: { name: "a time", powers: [0, 0, 1, 0], metric: "s", us: "s", choices: ["s", "ms", "min", "h", "d"] },
  area: { name: "an area", powers: [2, 0, 0, 0], metric: "m²", us: "ft²", choices: ["m²", "cm²", "mm²", "ft²", "in²"] },
  volume: { name: "a volume", powers: [3, 0, 0, 0], metric: "m³", us: "ft³", choices: ["m³", "L", "ft³", "in³"] },
  stiffness: {
    name: "a stiffness (force per length)",
    powers: [0, 1, -2, 0],
    metric: "N/m",
    us: "lbf/ft",
    choices: ["N/m", "kN/m", "daN/m", "lbf/ft", "lbf/in"],
  },
  pressure: {
    name: "a pressure",
    powers: [-1, 1, -2, 0],
    metric: "kPa",
    us: "psi",
    choices: ["Pa", "kPa", "MPa", "GPa", "bar", "psi"],
  },
  energy: {
    name: "an energy",
    powers: [2, 1, -2, 0],
    metric: "J",
    us: "ft·lbf",
    choices: ["J", "kJ", "MJ", "ft·lbf", "Wh", "kWh"],
  },
  power: { name: "a power", powers: [2, 1, -3, 0], metric: "kW", us: "hp", choices: ["W", "kW", "MW", "hp"] },
  frequency: {
    name: "a frequency",
    powers: [0, 0, -1, 0],
    metric: "Hz",
    us: "Hz",
    choices: ["Hz", "mHz", "kHz", "rpm"],
  },
  forcePerArea: {
    name: "a force per area",
    powers: [-1, 1, -2, 0],
    metric: "Pa",
    us: "lbf/ft²",
    choices: ["Pa", "kPa", "N/m²", "lbf/ft²", "psf"],
  },
  acceleration: {
    name: "an acceleration",
    powers: [1, 0, -2, 0],
    metric: "m/s²",
    us: "ft/s²",
    choices: ["m/s²", "ft/s²", "g"],
  },
};

/** The word for a set of powers, or none when nothing here measures that. */
export function dimensionNamed(powers: Powers): string | undefined {
  for (const facts of Object.values(DIMENSIONS)) if (samePowers(facts.powers, powers)) return facts.name;
  return undefined;
}

export function samePowers(one: Powers, other: Powers): boolean {
  return one.every((power, i) => power === other[i]);
}
